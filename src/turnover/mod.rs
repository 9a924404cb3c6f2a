//! How a line turns over in the air. Nothing here knows of braids: a line is mass per length and diameter along it ([`FlyLine`]).
//!
//! # What is calculated
//!
//! The rolling loop of Spolek (Am. J. Phys. 54 (1986), 832) and Robson (Am. J. Phys. 58 (1990), 234). The rod tip rests, and with it
//! the lower leg. The upper leg, of length `s`, flies with the speed `v`; the loop between them moves half as fast, and the upper leg
//! runs into it. Since the lower leg rests and does no work, energy is lost to the air alone:
//!
//! ```text
//! E = ½ M v²             M(s) = m_fly + ∫₀ˢ μ dx + ∫ μ (1 + cos ψ)/2 R dψ over the loop
//! dE/dt = −P             P = v³ (½ ρ π ∫₀ˢ C_t d dx + h + ½ ρ (C_d A)_fly)
//!                        h = ½ ρ R d (⅛) [C_n ∫ cos³φ dφ + π C_t ∫ (1 + cos ψ)³ dψ]
//! ds/dt = −½ v √τ        τ = 1 − 4 h / μ
//! ```
//!
//! `μ` is mass per length and `d` diameter at `x` from the fly, `R` half the height of the loop, `ρ` the density of the air. The
//! coefficients of drag across the line, `C_n`, and along it, `C_t`, follow from the Reynolds number of the diameter and of that part
//! of the speed ([`DragLaw`]); the split is that of Gatti-Bono and Perkins (J. Appl. Mech. 71 (2004), 745).
//!
//! Three things are refined. The older papers leave out the mass of the loop itself; here it is counted, since at the leader, which
//! is light, that is most of what moves. And the loop is a half circle only as it begins: the air makes it lean forward until it turns
//! sharply below the upper leg, and holds less then (module `loop_shape`; the formulas above are those of the beginning). With a half
//! circle throughout and τ = 1, a loop 1 m high would reach the leader three tenths slower than a chain of point masses does.
//!
//! Last, bends run along a line by √(T/μ). Without air the tension `T` is μ v²/4, and they run just as fast as the loop moves. In air
//! the upper leg is pulled by less: `T = M dv/dt + P_leg/v = μ v²/4 − h v²`, since dE/dt = −P and M falls by ½ μ v (what the leg keeps
//! by rolling more slowly, the loop loses by leaning). So the line rolls by √τ as fast. With τ = 1 a loop 1 m high would reach the
//! leader a tenth earlier than the chain does, and with up to a sixth more energy. This step is our own.
//!
//! The fall of the upper leg goes beside it and changes nothing in it: its weight less the drag across it, dw/dt = g − D/M.
//!
//! A loop stays round while what presses it outward is more than its weight: (v/2)²/R > g, that is v > 2 √(g R). Below that it is
//! said to collapse. That criterion is our own, without a source.
//!
//! # What is not
//!
//! Wind, rod and caster; line that is shot; how stiff the line is; the weight of the line while it rolls. Casts are for comparing
//! lines with each other, never for saying how far one flies. A chain of point masses in the plane agrees with time, speed and energy
//! at the leader (`tests/turnover`).

mod air;
mod cast;
mod line;
mod loop_shape;
mod moment;
mod moving;
mod roll;
mod solver;

pub use air::{DragLaw, Surroundings};
pub use cast::{Cast, CastNumber};
pub use line::{FlyLine, LinePiece};
pub use moment::{Landing, Losses, Moment, Outcome, Turnover};
pub use roll::turn_over;

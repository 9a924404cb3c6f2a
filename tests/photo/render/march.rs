//! Rays from the camera to the surface of the braid.
//!
//! The axis of the braid is z, x lies across it in the picture, y points to the camera. A ray keeps its x; with the axis tipped by a
//! slant s it runs along z = a / cos s − y tan s, where a is the place along the axis in the picture (analytic).

use super::scene::{Family, Flaw, Scene};
use super::shape::{Section, Shape};
use super::threads::{OnThread, Seen};
use super::weave::{Look, Weave};

/// The braid as a ray meets it.
pub(crate) struct Body<'a> {
    scene: &'a Scene,
    shape: Shape,
    weave: Weave,
    /// The surface with its flaw, and the stretch of it.
    flawed: Option<(Weave, Flaw)>,
    slant: (f64, f64),
    /// The greatest height of any surface.
    top: f64,
}

/// Where a ray meets the braid.
pub(crate) struct Hit {
    /// Place round the axis, radians from the side of the camera.
    pub(crate) round: f64,
    /// Distance from the axis, diameters.
    pub(crate) radius: f64,
    /// The braid there.
    pub(crate) section: Section,
    /// Direction outwards, of length 1: across the picture, towards the camera, along the axis.
    pub(crate) normal: [f64; 3],
    /// What the eye sees there.
    pub(crate) look: Look,
    /// The thread that is seen; `None` for the core.
    pub(crate) thread: Option<OnThread>,
}

impl Hit {
    /// A number for what is seen: others for other threads, never 0.
    pub(crate) fn tag(&self) -> u32 {
        self.thread.map_or(1, |thread| {
            2 + 2 * thread.index + u32::from(thread.family == Family::Rising)
        })
    }
}

impl<'a> Body<'a> {
    /// The braid of the scene.
    pub(crate) fn of(scene: &'a Scene) -> Self {
        let weave = Weave::of(scene, false);
        let flawed = scene.flaw.map(|flaw| (Weave::of(scene, true), flaw));
        let (sine, cosine) = scene.slant_deg.to_radians().sin_cos();
        let top = flawed
            .as_ref()
            .map_or(1.0, |(weave, _)| f64::from(weave.top))
            .max(1.0);
        Self {
            scene,
            shape: Shape::of(scene),
            weave,
            flawed,
            slant: (sine / cosine, 1.0 / cosine),
            top,
        }
    }

    /// The surface at a place along, and how far the flaw shows there.
    fn surface(&self, along: f64) -> (&Weave, Option<(&Weave, f64)>) {
        let Some((weave, flaw)) = &self.flawed else {
            return (&self.weave, None);
        };
        let inside = (along - flaw.stretch.0).min(flaw.stretch.1 - along);
        // A thread leaves its place within a fifth of a diameter.
        let share = (inside / 0.2).clamp(0.0, 1.0);
        if share == 0.0 {
            (&self.weave, None)
        } else if share == 1.0 {
            (weave, None)
        } else {
            (&self.weave, Some((weave, share)))
        }
    }

    fn height(&self, along: f64, round: f64, wound: f64) -> f64 {
        let (weave, other) = self.surface(along);
        let height = f64::from(weave.height(round, wound));
        match other {
            None => height,
            Some((other, share)) => {
                height + share * (f64::from(other.height(round, wound)) - height)
            }
        }
    }

    fn radius(&self, along: f64, round: f64, section: &Section) -> f64 {
        let height = self.height(along, round + self.scene.turn, section.wound);
        section.outer - 2.0 * section.thickness * (1.0 - height)
    }

    /// How far a place of a ray lies outside the surface.
    fn outside(&self, across: f64, toward: f64, picture: f64) -> f64 {
        let along = picture * self.slant.1 - toward * self.slant.0;
        let section = self.shape.at(along);
        (across * across + toward * toward).sqrt()
            - self.radius(along, angle(across, toward), &section)
    }

    /// Half the breadth beyond which no ray meets the braid at this place along the picture.
    pub(crate) fn reach(&self, picture: f64) -> f64 {
        let slack = 1.0 + 4.0 * self.slant.0.abs();
        let section = self.shape.at(picture);
        slack * (section.outer + 2.0 * section.thickness * (self.top - 1.0)) + 0.01
    }

    /// Where the ray at this place across and along the picture (diameters) meets the braid.
    pub(crate) fn hit(&self, across: f64, picture: f64) -> Option<Hit> {
        let section = self.shape.at(picture * self.slant.1);
        let outer = self
            .reach(picture)
            .min(1.02 * self.shape.widest + 2.0 * section.thickness * (self.top - 1.0));
        let inner = section.outer - 2.05 * section.thickness;
        let front = outer * outer - across * across;
        if front <= 0.0 {
            return None;
        }
        let front = front.sqrt();
        let back = inner * inner - across * across;
        let back = if back > 0.0 { back.sqrt() } else { -front };
        let least = (0.4 * section.thickness).min((front - back) / 3.0);
        // Where the ray goes nearly straight down it may go as far as the surface is away; at the edges it could jump over a crown.
        let stride = if across.abs() < 0.6 * inner { 0.7 } else { 0.0 };
        let (mut toward, mut before) = (front, self.outside(across, front, picture));
        while toward > back - least {
            let next = toward - least.max(stride * before);
            let outside = self.outside(across, next, picture);
            if outside <= 0.0 {
                return Some(self.meet(across, picture, (toward, before), (next, outside)));
            }
            (toward, before) = (next, outside);
        }
        None
    }

    /// The meeting between two places of a ray, the first outside, the second inside.
    fn meet(&self, across: f64, picture: f64, mut out: (f64, f64), mut inside: (f64, f64)) -> Hit {
        // The chord finds a smooth surface fast, halves find a wall.
        for step in 0..5 {
            let chord = (out.1 / (out.1 - inside.1)).clamp(0.05, 0.95);
            let share = if step % 2 == 0 { chord } else { 0.5 };
            let toward = out.0 + share * (inside.0 - out.0);
            let outside = self.outside(across, toward, picture);
            if outside > 0.0 {
                out = (toward, outside);
            } else {
                inside = (toward, outside);
            }
        }
        let share = out.1 / (out.1 - inside.1).max(1e-12);
        let toward = out.0 + share * (inside.0 - out.0);
        let along = picture * self.slant.1 - toward * self.slant.0;
        let round = angle(across, toward);
        self.describe(round, along)
    }

    /// The surface at a place: radians round from the side of the camera, diameters along from the middle of the picture.
    pub(crate) fn describe(&self, round: f64, along: f64) -> Hit {
        let section = self.shape.at(along);
        let turned = round + self.scene.turn;
        let (weave, other) = self.surface(along);
        let weave = match other {
            Some((other, share)) if share > 0.5 => other,
            _ => weave,
        };
        let look = weave.look(turned, section.wound);
        let band = 2.0 * section.thickness;
        let radius = section.outer - band * (1.0 - f64::from(look.height));
        // The gradient of ρ − r(θ, z) in directions outwards, round and along.
        let round_slope = band * f64::from(look.by_round) / radius;
        let along_slope = band * f64::from(look.by_lay) / section.lay;
        let (sine, cosine) = round.sin_cos();
        let length = (1.0 + round_slope * round_slope + along_slope * along_slope).sqrt();
        Hit {
            round,
            radius,
            thread: match look.seen {
                Seen::Core => None,
                Seen::Thread(family) => {
                    Some(OnThread::of(self.scene, family, turned, section.wound))
                }
            },
            normal: [
                (sine - round_slope * cosine) / length,
                (cosine + round_slope * sine) / length,
                -along_slope / length,
            ],
            look,
            section,
        }
    }
}

/// The angle of a place, 0 towards the camera: Abramowitz & Stegun 4.4.49 (from memory), within 0.000 02 rad. Far faster than the library's.
fn angle(across: f64, toward: f64) -> f64 {
    let (wide, deep) = (across.abs(), toward.abs());
    let slope = wide.min(deep) / wide.max(deep).max(1e-12);
    let square = slope * slope;
    let near = slope
        * (0.999_866
            + square
                * (-0.330_299_5
                    + square * (0.180_141 + square * (-0.085_133 + square * 0.020_835_1))));
    let quarter = if wide > deep {
        std::f64::consts::FRAC_PI_2 - near
    } else {
        near
    };
    let half = if toward < 0.0 {
        std::f64::consts::PI - quarter
    } else {
        quarter
    };
    if across < 0.0 { -half } else { half }
}

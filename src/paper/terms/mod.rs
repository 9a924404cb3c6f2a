//! The words of the trade as the page uses them: what each means in one plain sentence, and a drawing where that says more.
//!
//! The notes say what a word means here; they are definitions, and take no figure from anywhere but the definitions of the
//! units. To add a word, add a row; where it is explained beside a figure or a setting stands in `terms/uses.rs`.

mod uses;

use crate::paper::chart::term_pictures::TermPicture;

macro_rules! terms {
    ($($variant:ident $key:literal $name:literal $picture:expr, $note:literal;)*) => {
        /// A word of the trade.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Term {
            $(#[doc = $name] $variant,)*
        }

        impl Term {
            /// Every word, in the order of the alphabet.
            pub const ALL: [Self; [$($key),*].len()] = [$(Self::$variant),*];

            /// The key by which its note is found: `data-term`.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$variant => $key,)* }
            }

            /// The word.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }

            /// What it means, in one sentence.
            pub const fn note(self) -> &'static str {
                match self { $(Self::$variant => $note,)* }
            }

            /// The drawing that shows it, where there is one.
            pub const fn picture(self) -> Option<TermPicture> {
                match self { $(Self::$variant => $picture,)* }
            }
        }
    };
}

terms! {
    Absolute "absolute-pressure" "absolute pressure" None,
        "The pressure of the air left in a jar, counted from zero; a gauge counts from the air around it.";
    Band "band" "band and target" None,
        "The band is the range of weights that count as one class; the target is the weight in its middle.";
    Belly "belly" "belly" Some(TermPicture::Belly),
        "The thick part of the line, between the front taper and the rear one.";
    Angle "braid-angle" "braid angle" Some(TermPicture::Angle),
        "How far a thread slants from the length of the line: 0° is straight along it, 90° straight around it.";
    BuriedTail "buried-tail" "buried tail" None,
        "The end of a dropped thread, cut long and laid into the core of the braid.";
    Carrier "carrier" "carrier" Some(TermPicture::Carrier),
        "The part that holds one bobbin, runs in and out around the ring, and lays one thread into the braid.";
    Circuit "circuit" "carrier circuit" None,
        "One whole trip of a carrier around the ring, back to where it began.";
    ChangeGear "change-gear" "change gear" None,
        "A toothed wheel you can swap for another, to draw more or less line in each carrier circuit.";
    Coat "coat" "coat" None,
        "Oil or varnish put on once, from wet to dry.";
    Cover "cover" "cover" Some(TermPicture::Cover),
        "The share of the surface that threads hide; the rest is gaps.";
    Crimp "crimp" "crimp" None,
        "The extra length of a thread that passes over and under the others instead of running straight.";
    Crossing "crossing" "crossing" Some(TermPicture::Crossing),
        "A place where a thread that winds one way passes over or under one that winds the other way.";
    Directions "cw-ccw" "cw and ccw" None,
        "Clockwise and counter-clockwise, seen from above: the two ways in which carriers run around the ring.";
    Degumming "degumming" "degumming" None,
        "Boiling raw silk until its natural gum is gone, which leaves it softer and lighter.";
    Denier "denier" "denier and tex" None,
        "How heavy yarn is for its length: denier is the grams in 9,000 m, tex the grams in 1,000 m.";
    Dressing "dressing" "dressing" None,
        "The oil, varnish and grease in and on the finished braid, which add to its weight.";
    End "end" "end" Some(TermPicture::End),
        "One yarn as it comes off the cone, the finest you handle; several plied ends make a thread.";
    Engaged "engaged" "engaged and idle" None,
        "An engaged carrier gives thread to the braid, while an idle one runs around without.";
    Float "float" "float" Some(TermPicture::Float),
        "A stretch in which a thread stays on the same side over several crossings in a row.";
    Gap "gap" "gap" Some(TermPicture::Gap),
        "A wider step between two engaged carriers of one direction, because the places between them are empty or idle.";
    Grain "grain" "grain" None,
        "The small unit in which lines are classed: 7,000 grains make a pound, and 1 gram is 15.4 grains.";
    Guide "guide" "guide" None,
        "The part of the machine the threads touch last before they meet and become braid.";
    HornGear "horn-gear" "horn gear" Some(TermPicture::HornGear),
        "A notched wheel that takes carriers half around and hands them on to the wheel beside it.";
    Lag "lag" "lag of the angle" Some(TermPicture::Lag),
        "The distance over which the braid angle slowly reaches its new value after a change of gear or threads.";
    Lay "lay" "lay" Some(TermPicture::Lay),
        "The length of line in which one thread winds around it once.";
    LeadIn "lead-in" "lead-in" None,
        "A piece braided before the tip until the angle is steady, and cut off later.";
    Level "level" "level stretch" Some(TermPicture::Level),
        "A stretch that keeps one diameter, such as the short level tip at either end.";
    Class "class" "line class" None,
        "A number for the weight of the first 30 ft of a line, which matches it to a rod.";
    MachineConstant "machine-constant" "machine constant" None,
        "The line your take-off draws in one carrier circuit when both gears have the same number of teeth.";
    Pattern "pattern" "pattern" None,
        "How many threads each thread passes over, then under: diamond one, regular two, Hercules three.";
    Pin "pin" "pin" None,
        "A place, carrier or gear that you fix, and that the plan then uses.";
    Place "place" "place on the ring" None,
        "A spot that can hold a carrier; it can stay empty to braid with fewer threads.";
    Ply "ply" "ply" Some(TermPicture::Thread),
        "To bring several ends together, with a light twist, as one thread.";
    Rib "rib" "rib" Some(TermPicture::Rib),
        "A straight row of crossings, one after the other along the line.";
    RunningLine "running-line" "running line" Some(TermPicture::RunningLine),
        "The long thin level part after the rear taper, which the heavy part pulls through the rod rings.";
    SilkSize "silk-size" "silk size letter" None,
        "A letter of the old scale of diameters for silk lines, from I for the thinnest up to AAAAA.";
    Solids "solids" "solids" None,
        "The part of a varnish that stays on the line after everything volatile has evaporated.";
    Spread "spread" "spread" None,
        "How far off a value may be: in 95 of 100 cases by less than two spreads.";
    Stop "stop" "stop" None,
        "A place where you halt the machine to add, drop or swap a thread, or to change a gear.";
    Swap "swap" "swap" None,
        "To take one carrier’s bobbin off and put on another with a heavier or a lighter thread.";
    Swatch "swatch" "swatch" None,
        "A short braid of threads and gears you know, made only to be measured.";
    TakeOff "take-off" "take-off" Some(TermPicture::TakeOff),
        "The roller that draws the finished braid away; the faster it draws, the longer the lay.";
    Taper "taper" "taper" Some(TermPicture::Taper),
        "A stretch in which the line grows steadily thicker or thinner.";
    Tenacity "tenacity" "tenacity" None,
        "The pull at which a fibre breaks, for each tex of its size.";
    Thread "thread" "thread" Some(TermPicture::Thread),
        "What one carrier lays into the braid: one end, or several plied together.";
    ThreadPlan "thread-plan" "thread plan" None,
        "How many ends make a thread, and the number of threads at the start and at the thickest place.";
    Tolerance "tolerance" "tolerance" None,
        "How far the braid angle may be off the target before the page warns you.";
    Train "train" "train of gears" None,
        "The gears between the ring and the take-off roller, which set how much line one carrier circuit draws.";
    Voids "voids" "voids" None,
        "The air between fibres and threads of the bare braid, into which oil and varnish can go.";
}

impl Term {
    /// The word of a key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|term| term.key() == key)
    }
}

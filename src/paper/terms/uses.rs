//! Which word of the trade is explained beside which figure and which setting.

use super::Term;
use crate::braid::taper::Part;
use crate::design::settings::Setting;

impl Term {
    /// The word a figure of this key is about, where it is one that a newcomer may not know.
    pub fn of_figure(key: &str) -> Option<Self> {
        Some(match key {
            "head-mass" => Self::Grain,
            "rear-head-mass" => Self::Class,
            "tip-mass" | "tip-diameter" => Self::Level,
            "front-mass" | "rear-taper-mass" => Self::Taper,
            "belly-mass" | "belly-diameter" => Self::Belly,
            "rear-end-mass" => Self::RunningLine,
            "total-mass" | "bulk-density" => Self::Dressing,
            "bare-bulk-density" => Self::Voids,
            "threads-min" | "threads-max" | "yarn-length" => Self::Thread,
            "angle-worst" => Self::Angle,
            "one-gear" | "gear-changes" => Self::ChangeGear,
            "thread-changes" => Self::Swap,
            "crossings" => Self::Rib,
            "cover" => Self::Cover,
            "longest-float" => Self::Float,
            "widest-gap" => Self::Gap,
            "break-dry" => Self::Tenacity,
            "circuits" => Self::Circuit,
            "end-length" => Self::End,
            _ => return None,
        })
    }

    /// The word a setting is about, where it is one that a newcomer may not know.
    pub const fn of_setting(setting: Setting) -> Option<Self> {
        Some(match setting {
            Setting::LabelLow | Setting::LabelHigh => Self::Denier,
            Setting::EndsPerThread => Self::End,
            Setting::HeavierEnds => Self::Swap,
            Setting::FewestThreads | Setting::MostThreads => Self::Thread,
            Setting::DegummingLoss => Self::Degumming,
            Setting::PlyingAllowance => Self::Ply,
            Setting::HornGears => Self::HornGear,
            Setting::PartnerTeeth | Setting::PairSum => Self::Train,
            Setting::MachineConstant => Self::MachineConstant,
            Setting::GearChangePrice => Self::ChangeGear,
            Setting::TargetAngle => Self::Angle,
            Setting::AngleTolerance => Self::Tolerance,
            Setting::Crimp => Self::Crimp,
            Setting::OilFill | Setting::VarnishFill => Self::Voids,
            Setting::VarnishSolids => Self::Solids,
            Setting::AirPressure => Self::Absolute,
            Setting::Grease => Self::Dressing,
            Setting::BuriedTail => Self::BuriedTail,
            Setting::LeastSpacing | Setting::StopPrice => Self::Stop,
            Setting::LeadIn => Self::LeadIn,
            Setting::GuideRadius => Self::Guide,
            Setting::StrengthEfficiency => Self::Tenacity,
            Setting::CircuitSpeed | Setting::HandleTurns => Self::Circuit,
            Setting::LeastCover => Self::Cover,
            _ => return None,
        })
    }

    /// The word for a part of the line.
    pub const fn of_part(part: Part) -> Self {
        match part {
            Part::LevelTip | Part::RearTip => Self::Level,
            Part::FrontTaper | Part::RearTaper => Self::Taper,
            Part::Belly => Self::Belly,
            Part::RunningLine => Self::RunningLine,
        }
    }
}

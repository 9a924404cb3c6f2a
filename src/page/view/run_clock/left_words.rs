//! How long until the stop, in words.

use crate::base::units::show;
use crate::plan::run::Countdown;

/// `8 min to the stop`.
pub(crate) fn left_words(countdown: &Countdown) -> String {
    match countdown.seconds() {
        None => "It is not known how far the machine is".to_owned(),
        Some(_) if countdown.is_running && countdown.past() > 0.0 => {
            let past = countdown.past().floor();
            if past >= 1.0 {
                format!("Stop now: {past:.0} circuits past")
            } else {
                "Stop now".to_owned()
            }
        }
        Some(seconds) if countdown.is_running => {
            format!("{} to the stop", show::minutes(seconds / 60.0))
        }
        Some(seconds) => format!("{} of running to the stop", show::minutes(seconds / 60.0)),
    }
}

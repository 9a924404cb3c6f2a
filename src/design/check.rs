//! What makes a draft a design: every rule that concerns more than one number.

use super::draft::{Draft, DraftOriginal, DraftPoint};
use super::machine::{Mounted, track_of};
use super::refusal::{LEAST_SPACING, MOST_GEARS, MOST_POINTS, Place, Refusal};
use super::settings::{DIAMETER, ORIGINAL_MASS, POSITION, Setting, Settings};
use crate::braid::takeoff::{TEETH, TakeOff};
use crate::braid::threads::Build;
use crate::braid::track::Direction;
use crate::design::refusal::admit;

pub(super) fn label(settings: &Settings) -> Result<(), Refusal> {
    let (low, high) = (
        settings.get(Setting::LabelLow),
        settings.get(Setting::LabelHigh),
    );
    if low > high {
        Err(Refusal::LabelUpsideDown { low, high })
    } else {
        Ok(())
    }
}

/// A braid holds the voids of its threads and more, so it cannot be denser than they are.
pub(super) fn packing(settings: &Settings) -> Result<(), Refusal> {
    let (braid, thread) = (
        settings.get(Setting::FibreFraction),
        settings.get(Setting::ThreadPacking),
    );
    if braid > thread {
        Err(Refusal::BraidDenserThanThread { braid, thread })
    } else {
        Ok(())
    }
}

pub(super) fn bobbin(settings: &Settings) -> Result<(), Refusal> {
    let (barrel, full) = (
        settings.get(Setting::BobbinBarrel),
        settings.get(Setting::BobbinFull),
    );
    if barrel < full {
        Ok(())
    } else {
        Err(Refusal::BobbinWithoutRoom { barrel, full })
    }
}

pub(super) fn machine(draft: &Draft) -> Result<(), Refusal> {
    let track = track_of(draft).map_err(|why| Refusal::NoSuchTrack {
        horn_gears: draft.settings.get(Setting::HornGears),
        pattern: draft.pattern,
        why,
    })?;
    let carriers = f64::from(track.carriers());
    let [fewest, most] =
        [Setting::FewestThreads, Setting::MostThreads].map(|setting| draft.settings.get(setting));
    if fewest.max(most) > carriers {
        return Err(Refusal::MoreThreadsThanCarriers {
            setting: if fewest > carriers {
                Setting::FewestThreads
            } else {
                Setting::MostThreads
            },
            threads: fewest.max(most),
            carriers,
        });
    }
    if fewest > most {
        return Err(Refusal::FewestAboveMost { fewest, most });
    }
    // One way cannot run ahead of the other by more than one.
    let least_way = Direction::Clockwise;
    let ways = [least_way, least_way.other()].map(|way| f64::from(track.mounted(way)));
    let balanced = 2.0 * ways[0].min(ways[1]) + 1.0;
    if most > balanced {
        return Err(Refusal::Lopsided {
            threads: most,
            balanced,
        });
    }
    let [light, heavy] =
        [Setting::EndsPerThread, Setting::HeavierEnds].map(|setting| draft.settings.get(setting));
    if draft.build != Build::MoreThreads && heavy <= light {
        return Err(Refusal::HeavierNotHeavier { light, heavy });
    }
    Ok(())
}

/// The gears owned can be fitted in the train.
pub(super) fn wheels(draft: &Draft, take_off: &TakeOff) -> Result<(), Refusal> {
    if take_off.choices().is_empty() {
        Err(Refusal::NoPair {
            train: draft.train,
            sum: draft.settings.get(Setting::PairSum),
        })
    } else {
        Ok(())
    }
}

/// Places in order, each once.
pub(super) fn mounted(mut mounted: Mounted) -> Mounted {
    for places in [&mut mounted.clockwise, &mut mounted.counter_clockwise] {
        places.sort_unstable();
        places.dedup();
    }
    mounted
}

pub(super) fn gears(teeth: &[f64]) -> Result<Vec<f64>, Refusal> {
    if teeth.is_empty() || teeth.len() > MOST_GEARS {
        return Err(Refusal::GearCount(teeth.len()));
    }
    let mut gears = teeth
        .iter()
        .map(|&teeth| admit(TEETH, teeth, Place::Gears))
        .collect::<Result<Vec<_>, _>>()?;
    gears.sort_by(f64::total_cmp);
    Ok(gears)
}

pub(super) fn points(drafts: &[DraftPoint]) -> Result<Vec<DraftPoint>, Refusal> {
    if !(2..=MOST_POINTS).contains(&drafts.len()) {
        return Err(Refusal::PointCount(drafts.len()));
    }
    let points = drafts
        .iter()
        .enumerate()
        .map(|(index, draft)| point(draft, index))
        .collect::<Result<Vec<_>, _>>()?;
    if points[0].at_m != 0.0 {
        return Err(Refusal::TipNotAtZero { at: points[0].at_m });
    }
    let spacing = POSITION.quanta(LEAST_SPACING);
    let close = |pair: &[DraftPoint]| {
        POSITION.quanta(pair[1].at_m) < POSITION.quanta(pair[0].at_m) + spacing
    };
    match points.windows(2).position(close) {
        None => Ok(points),
        Some(before) => Err(Refusal::PointsTooClose {
            index: before + 1,
            at: points[before + 1].at_m,
            previous: points[before].at_m,
        }),
    }
}

pub(super) fn original(draft: DraftOriginal, room: usize) -> Result<DraftOriginal, Refusal> {
    let place = Place::Original;
    let mass = |grams| admit(ORIGINAL_MASS, grams, place);
    Ok(DraftOriginal {
        name: text(&draft.name, place, room)?,
        head_g: draft.head_g.map(mass).transpose()?,
        points: points(&draft.points)?,
    })
}

fn point(draft: &DraftPoint, index: usize) -> Result<DraftPoint, Refusal> {
    Ok(DraftPoint {
        at_m: admit(POSITION, draft.at_m, Place::Point(index))?,
        diameter_mm: admit(DIAMETER, draft.diameter_mm, Place::Point(index))?,
    })
}

/// A text without what could disguise it: control characters, unseen ones, and those that turn the direction of writing.
pub(crate) fn text(raw: &str, place: Place, room: usize) -> Result<String, Refusal> {
    let several_lines = place == Place::Notes;
    let shown = |c: &char| (!c.is_control() || (*c == '\n' && several_lines)) && !is_unseen(*c);
    let clean: String = raw.chars().filter(shown).collect();
    let clean = clean.trim().to_owned();
    let characters = clean.chars().count();
    if characters > room {
        Err(Refusal::TextTooLong {
            place,
            characters,
            allowed: room,
        })
    } else {
        Ok(clean)
    }
}

/// Whether a character cannot be seen, or turns the direction of writing.
pub(crate) fn is_unseen(c: char) -> bool {
    matches!(c, '\u{00ad}' | '\u{061c}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}' | '\u{2029}' | '\u{2060}'..='\u{2064}' | '\u{206a}'..='\u{206f}' | '\u{fff9}'..='\u{fffb}' | '\u{feff}' | '\u{e0000}'..='\u{e007f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

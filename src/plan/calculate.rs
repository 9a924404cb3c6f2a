//! The plan of a design, calculated from its parts.

use super::contents::Plan;
use super::drawn_mass::DrawnMass;
use super::layout::{Ground, pins};
use super::prediction::Prediction;
use super::schedule::Schedule;
use super::{dressing, head_range, notices, outcome, sections};
use crate::base::units::Length;
use crate::braid::ladder::LadderCache;
use crate::braid::weight::two_handed::TwoHanded;
use crate::braid::weight::{Head, Verdict};
use crate::design::Design;

impl Plan {
    /// The plan of a design.
    pub fn of(design: &Design) -> Self {
        Self::with(design, &mut LadderCache::default())
    }

    /// The same plan, its ladder taken from a cache where it was searched before.
    pub fn with(design: &Design, ladders: &mut LadderCache) -> Self {
        let ground = Ground::of(design);
        let pinned = design.pins();
        let mut layout = ground.lay_out(&pinned);
        let pieces = ground.pieces(&layout);
        let line = ground.braid_pieces(&pieces);
        let (low, high) = layout.level_range();
        let (fewest, most) = (ground.levels[low].threads, ground.levels[high].threads);
        let ladder = ladders.ladder(design.track(), fewest, most, &pins::of_carriers(&pinned));
        layout
            .dropped_pins
            .extend(pins::given_up(ladder.given_up(), &pinned));
        let heavier = match ground.levels[high].heavy {
            0 => Vec::new(),
            _ => ladder.heavier_order(most, &pins::of_swaps(&pinned)),
        };
        let swapped = &heavier[..ground.levels[high].heavy as usize];
        let engaged = ladder.engaged(most);
        layout
            .dropped_pins
            .extend(pins::swaps_given_up(&pinned, swapped, engaged));
        let schedule = Schedule {
            ground: &ground,
            layout: &layout,
            line: &line,
            ladder: &ladder,
            heavier: &heavier,
            carrier_pins: &outcome::carrier_pins(&pinned, &layout, most),
            pins: &pinned,
        };
        let events = schedule.events();
        let winding = outcome::winding(design, &line);
        let bobbins = winding.bobbins(&events);
        let plying = winding.plying(&bobbins);
        let drawn = DrawnMass::of(&ground);
        let length = ground.taper.length();
        let parts = ground.taper.sections();
        let head = Head::of(&parts);
        let missing = head.missing(length);
        let ends = missing.is_none().then_some((head.from, head.to));
        let head_mass = ends.map(|(from, to)| line.mass(from, to));
        // What comes after the head cannot change it.
        let of_head = &pieces[..pieces.partition_point(|piece| piece.from < head.to)];
        let sections = sections::weigh(&ground, &drawn, &layout, &line, &parts);
        let mut plan = Self {
            length,
            supply: ground.supply,
            one_gear: ground.braid_with_one(&layout),
            head,
            head_mass,
            head_bare_mass: ends.map(|(from, to)| line.bare_mass(from, to)),
            head_drawn: ends.map(|ends| drawn.mass_between(ends)),
            verdict: Verdict::on(head_mass, missing),
            head_range: ends.map(|ends| head_range::range(design, &ground, of_head, ends)),
            prediction: ends.map(|ends| Prediction::of(design, of_head, &line, ends)),
            two_handed: TwoHanded::all(&head, &line),
            rear_head: head_range::rear(&ground.taper, &line),
            total_mass: line.mass(Length::ZERO, length),
            bare_mass: line.bare_mass(Length::ZERO, length),
            tip_diameter: line.station(Length::ZERO).dressed.diameter,
            belly: line.station(outcome::belly_middle(&ground)),
            diameter_error: sections::diameter_error(&ground, &line),
            interlacings: outcome::over_all(ladder.interlacings()),
            worst_angle: outcome::worst_angle(&line, ground.process.target),
            strength: outcome::strength(design, &ground, &line),
            yarn: outcome::yarn_total(design, &bobbins, &plying),
            workload: outcome::workload(design, &line),
            staircase: ground.staircase.clone(),
            dressing: Vec::new(),
            notices: Vec::new(),
            layout,
            events,
            ladder,
            heavier,
            sections,
            bobbins,
            plying,
            line,
        };
        plan.dressing = dressing::of(design, &plan);
        plan.notices = notices::of(design, &ground, &plan);
        plan
    }
}

//! The braid along its axis: radius, thickness of the threads and how far they have wound, and the truth about a picture.

use std::f64::consts::{PI, TAU};

use super::scene::{Scene, Subject};
use super::threads::Threads;

/// The braid at one place of its axis. Lengths are in outer diameters of the middle of the picture.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Section {
    /// Outer radius: to the crown of a thread on top.
    pub(crate) outer: f64,
    /// Thickness of a thread.
    pub(crate) thickness: f64,
    /// Braid angle at the path of the threads, radians.
    pub(crate) angle: f64,
    /// Length along the axis in which a thread goes round once.
    pub(crate) lay: f64,
    /// Lays from the middle of the picture to here.
    pub(crate) wound: f64,
}

impl Section {
    /// The path runs midway between a thread on top and one below: one thickness within the outer radius.
    pub(crate) fn path_diameter(&self) -> f64 {
        2.0 * (self.outer - self.thickness)
    }

    fn without_turns(scene: &Scene, along: f64) -> Self {
        let outer = 0.5 * (1.0 + scene.diameter_change * along).clamp(0.2, 5.0);
        let angle = (scene.angle_deg + scene.angle_change_deg * along)
            .clamp(3.0, 85.0)
            .to_radians();
        // Width w = cover · c · cos α with c = 2πD/N and D = 2(R − t), thickness t = w / flatness; solved for t.
        let share = scene.cover * TAU * angle.cos() / (f64::from(scene.threads) * scene.flatness);
        let thickness = share * 2.0 * outer / (1.0 + 2.0 * share);
        let lay = PI * 2.0 * (outer - thickness) / angle.tan();
        Self {
            outer,
            thickness,
            angle,
            lay,
            wound: 0.0,
        }
    }
}

/// Steps of the table for one diameter.
const FINE: f64 = 64.0;

/// The braid along its axis, as a table.
pub(crate) struct Shape {
    sections: Vec<Section>,
    start: f64,
    /// Whether angle and diameter are the same all along: then only the turns differ.
    is_even: bool,
    /// The greatest outer radius.
    pub(crate) widest: f64,
}

impl Shape {
    /// The braid as far as the picture may show it.
    pub(crate) fn of(scene: &Scene) -> Self {
        let diagonal = f64::from(scene.width).hypot(f64::from(scene.height));
        let reach = ((diagonal / scene.pixels_per_diameter + 2.0) * FINE).ceil() as i64;
        let mut sections: Vec<Section> = (-reach..=reach)
            .map(|step| Section::without_turns(scene, step as f64 / FINE))
            .collect();
        let mut wound = 0.0;
        for index in 1..sections.len() {
            // The turns of a step by the trapezoid rule.
            wound += 0.5 / FINE * (1.0 / sections[index - 1].lay + 1.0 / sections[index].lay);
            sections[index].wound = wound;
        }
        let middle = sections[reach as usize];
        for section in &mut sections {
            section.wound += scene.shift / middle.lay - middle.wound;
        }
        let widest = sections
            .iter()
            .fold(0.0_f64, |widest, section| widest.max(section.outer));
        Self {
            sections,
            start: -(reach as f64) / FINE,
            is_even: scene.diameter_change == 0.0 && scene.angle_change_deg == 0.0,
            widest,
        }
    }

    /// The braid at a place along the axis, diameters from the middle of the picture.
    pub(crate) fn at(&self, along: f64) -> Section {
        if self.is_even {
            let first = self.sections[0];
            let wound = first.wound + (along - self.start) / first.lay;
            return Section { wound, ..first };
        }
        let place = ((along - self.start) * FINE).clamp(0.0, (self.sections.len() - 2) as f64);
        let index = place as usize;
        let share = place - index as f64;
        let (before, behind) = (&self.sections[index], &self.sections[index + 1]);
        let between = |low: f64, high: f64| low + (high - low) * share;
        Section {
            outer: between(before.outer, behind.outer),
            thickness: between(before.thickness, behind.thickness),
            angle: between(before.angle, behind.angle),
            lay: between(before.lay, behind.lay),
            wound: between(before.wound, behind.wound),
        }
    }
}

/// What a measurement of the picture should find.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Truth {
    /// Braid angle at the path of the threads, radians: tan = π · `path_diameter_px` / lay.
    pub(crate) angle: f64,
    /// Angle seen on the crowns in the middle of the braid, radians: tan = π · `diameter_px` / lay. Greater than `angle`.
    pub(crate) crown_angle: f64,
    /// Angle of the threads at the mean radius of the surface that is seen, radians: what streaks and edges show on the whole, between
    /// `angle` and `crown_angle`.
    pub(crate) surface_angle: f64,
    /// Crossings on one rib for one px along the axis in the picture, N/(2 · lay), for the full machine. The same at every diameter.
    pub(crate) crossings_per_px: f64,
    /// Lay along the axis in the picture, px.
    pub(crate) lay_px: f64,
    /// Outer diameter, px: the breadth of the outline from crown to crown.
    pub(crate) diameter_px: f64,
    /// Diameter of the path of the threads: the outer one less two thicknesses, px.
    pub(crate) path_diameter_px: f64,
    /// A point of the axis in picture px from its upper left corner: the one nearest to the middle.
    pub(crate) axis_point: (f64, f64),
    /// Direction of the axis in the picture, of length 1; rightwards and down are positive.
    pub(crate) axis_direction: (f64, f64),
    /// Width of a thread across it, px.
    pub(crate) thread_width_px: f64,
}

/// The truth in the middle of the picture.
pub(crate) fn truth(scene: &Scene) -> Truth {
    truth_at(scene, 0.0)
}

/// The truth at a distance along the axis from its point nearest to the middle of the picture, px.
pub(crate) fn truth_at(scene: &Scene, along_px: f64) -> Truth {
    let slant = scene.slant_deg.to_radians().cos();
    let px = scene.pixels_per_diameter;
    let section = Section::without_turns(scene, along_px / px / slant);
    let (sine, cosine) = scene.rotation_deg.to_radians().sin_cos();
    let crossings = if scene.subject == Subject::Braid {
        f64::from(scene.threads) / (2.0 * section.lay * px * slant)
    } else {
        0.0
    };
    let depth = 1.0 - Threads::of(scene, None).mean_height();
    let surface = section.outer - 2.0 * section.thickness * depth;
    Truth {
        angle: section.angle,
        surface_angle: (TAU * surface / section.lay).atan(),
        crown_angle: (PI * 2.0 * section.outer / section.lay).atan(),
        crossings_per_px: crossings,
        lay_px: section.lay * px * slant,
        diameter_px: 2.0 * section.outer * px,
        path_diameter_px: section.path_diameter() * px,
        axis_point: (
            f64::from(scene.width) / 2.0 - sine * scene.offset_px + cosine * along_px,
            f64::from(scene.height) / 2.0 + cosine * scene.offset_px + sine * along_px,
        ),
        axis_direction: (cosine, sine),
        thread_width_px: section.thickness * scene.flatness * px,
    }
}

//! Light and colour of what a ray meets, in linear light.

use std::f64::consts::TAU;

use super::march::Hit;
use super::noise::{mix, of_index, smooth};
use super::rule;
use super::scene::{Family, Scene, Subject};
use super::threads::OnThread;

/// Light and threads of a scene.
pub(crate) struct Paint<'a> {
    scene: &'a Scene,
    light: [f64; 3],
    /// Midway between the light and the camera.
    half: [f64; 3],
    seed: u32,
    /// Size of a pixel in diameters.
    pixel: f64,
}

impl<'a> Paint<'a> {
    /// The light of the scene, turned into the directions of the braid.
    pub(crate) fn of(scene: &'a Scene) -> Self {
        let (high, level) = scene.light_height_deg.to_radians().sin_cos();
        let (across, along) = (scene.light_deg - scene.rotation_deg)
            .to_radians()
            .sin_cos();
        let light = [level * across, high, level * along];
        let half = [light[0], light[1] + 1.0, light[2]];
        let length = dot(half, half).sqrt();
        Self {
            scene,
            light,
            half: half.map(|part| part / length),
            seed: scene.seed as u32,
            pixel: 1.0 / scene.pixels_per_diameter,
        }
    }

    /// The colour of the braid where a ray meets it.
    pub(crate) fn braid(&self, hit: &Hit) -> [f32; 3] {
        let scene = self.scene;
        let direct = dot(hit.normal, self.light).max(0.0) as f32;
        // A wall between two threads is a gap of a real braid: little light, no streaks.
        let wall = 1.0 - 0.8 * hit.look.wall;
        let open = wall * mix(1.0, hit.look.open, scene.occlusion);
        // Light from all sides comes from the front half only.
        let around = 0.5 + 0.5 * hit.normal[1].max(0.0) as f32;
        let light = open
            * (scene.ambient * around
                + (1.0 - scene.ambient) * direct * mix(1.0, hit.look.open, 0.5 * scene.occlusion));
        let Some(thread) = hit.thread else {
            return scene.colour.map(|part| 0.35 * part * light);
        };
        let (colour, streaks) = self.thread(hit, thread);
        let sheen = scene.sheen
            * self.sheen(hit, thread.family)
            * open
            * direct.sqrt()
            * (0.6 + streaks).max(0.0)
            * (1.0 - hit.look.wall);
        colour.map(|part| part * light + sheen)
    }

    /// Colour of a thread at a place, and the brightness of its streaks there.
    fn thread(&self, hit: &Hit, place: OnThread) -> ([f32; 3], f32) {
        let scene = self.scene;
        let OnThread {
            family,
            index,
            across,
            along,
        } = place;
        let cosine = hit.section.angle.cos();
        let spacing = TAU * hit.section.path_diameter() / f64::from(scene.threads) * cosine;
        let along = along * hit.section.lay / (f64::from(scene.threads) * cosine);
        let across = across * spacing + along * scene.twist_deg.to_radians().tan();
        let thread = self
            .seed
            .wrapping_mul(64)
            .wrapping_add(2 * index + u32::from(family == Family::Rising));
        // Neither finer than a pixel shows nor coarser than a strand of the thread is.
        let fine = (spacing / 16.0).max(1.1 * self.pixel);
        let coarse = (spacing / 5.0).max(2.0 * self.pixel);
        let streaks = 0.6 * smooth(across / fine, along / (14.0 * fine), thread)
            + 0.4 * smooth(across / coarse, along / (10.0 * coarse), thread ^ 0x5555);
        let own_tone = 1.0 + scene.unevenness * of_index(thread as i32, self.seed);
        let tone = own_tone * (1.0 + scene.fibre * (1.0 - hit.look.wall) * streaks).max(0.1);
        let colour = scene
            .tracers
            .iter()
            .find(|(of, number, _)| *of == family && *number == index)
            .map_or(scene.colour, |(_, _, colour)| *colour);
        (colour.map(|part| part * tone), streaks)
    }

    /// Sheen of fibres: brightest where the thread stands square to the middle of light and camera. Source: Kajiya & Kay 1989 (from memory).
    fn sheen(&self, hit: &Hit, family: Family) -> f32 {
        let (sine, cosine) = hit.section.angle.sin_cos();
        let sine = if family == Family::Rising {
            sine
        } else {
            -sine
        };
        let (round_sine, round_cosine) = hit.round.sin_cos();
        let thread = [sine * round_cosine, -sine * round_sine, cosine];
        // The thread bends: its direction is the part of it that lies in the surface.
        let out = dot(thread, hit.normal);
        let lying = [0, 1, 2].map(|part| thread[part] - out * hit.normal[part]);
        let along = dot(lying, self.half) / dot(lying, lying).sqrt().max(1e-6);
        let square = (1.0 - along * along).max(0.0) as f32;
        square.powi(12)
    }

    /// The background at a pixel; `across` and `along` are places beside the axis, in diameters.
    pub(crate) fn behind(&self, (column, row): (f64, f64), across: f64, along: f64) -> [f32; 3] {
        let scene = self.scene;
        if let Some(rule) = &scene.rule {
            let px = scene.pixels_per_diameter;
            if let Some(tone) = rule::tone(rule, across * px, along * px) {
                return [tone; 3];
            }
        }
        let ground = &scene.background;
        let mut tone = 1.0;
        if ground.mottle > 0.0 {
            let spots = 0.5 * smooth(column / 90.0, row / 90.0, self.seed ^ 0x11)
                + 0.3 * smooth(column / 23.0, row / 23.0, self.seed ^ 0x22)
                + 0.2 * smooth(column / 4.0, row / 4.0, self.seed ^ 0x33);
            tone += ground.mottle * spots;
        }
        if ground.shadow > 0.0 && matches!(scene.subject, Subject::Braid | Subject::Rope) {
            // The braid lies on the ground: its shadow falls away from the light, soft at its far edge.
            let away = -self.light[0].signum();
            let length = 0.5 + 0.5 * (self.light[0] / self.light[1].max(0.2)).abs();
            let beyond = (across * away - 0.5) / length.max(0.05);
            let near = (across * away).signum() as f32;
            let dark = if near > 0.0 {
                1.0 - super::noise::ease((beyond as f32).max(0.0))
            } else {
                // A little of the light from all sides is missing on the other side too.
                0.35 * (1.0 - super::noise::ease((4.0 * (across.abs() - 0.5)) as f32))
            };
            tone *= 1.0 - ground.shadow * dark;
        }
        ground.colour.map(|part| part * tone.max(0.0))
    }
}

fn dot(left: [f64; 3], right: [f64; 3]) -> f64 {
    left[0] * right[0] + left[1] * right[1] + left[2] * right[2]
}

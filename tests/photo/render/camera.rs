//! The picture before lens and film: the light of every pixel.

use super::cloth;
use super::march::Body;
use super::noise::Dice;
use super::paint::Paint;
use super::scene::{Scene, Subject};

/// What stands before the camera, ready to be sampled.
struct Camera<'a> {
    scene: &'a Scene,
    body: Option<Body<'a>>,
    paint: Paint<'a>,
    dice: Dice,
    /// Sine and cosine of the turn of the axis in the picture.
    turn: (f64, f64),
    middle: (f64, f64),
}

/// The linear light of each pixel, row by row.
pub(crate) fn light(scene: &Scene) -> Vec<[f32; 3]> {
    let is_round = matches!(scene.subject, Subject::Braid | Subject::Rope);
    let mut camera = Camera {
        scene,
        body: is_round.then(|| Body::of(scene)),
        paint: Paint::of(scene),
        dice: Dice::new(scene.seed ^ 0xC107),
        turn: scene.rotation_deg.to_radians().sin_cos(),
        middle: (0.5 * f64::from(scene.width), 0.5 * f64::from(scene.height)),
    };
    let pixels = (scene.width * scene.height) as usize;
    let (mut light, mut tags) = (Vec::with_capacity(pixels), Vec::with_capacity(pixels));
    for row in 0..scene.height {
        for column in 0..scene.width {
            let (colour, tag) = camera.sample(f64::from(column) + 0.5, f64::from(row) + 0.5);
            light.push(colour);
            tags.push(tag);
        }
    }
    if is_round && scene.samples > 1 {
        for place in borders(&tags, scene.width as usize) {
            light[place] = camera.finer(place);
        }
    }
    light
}

/// Pixels beside another thread or the background.
fn borders(tags: &[u32], width: usize) -> Vec<usize> {
    let differs =
        |place: usize, is_inside: bool, other: usize| is_inside && tags[other] != tags[place];
    (0..tags.len())
        .filter(|&place| {
            let column = place % width;
            differs(place, column > 0, place.saturating_sub(1))
                || differs(place, column + 1 < width, place + 1)
                || differs(place, place >= width, place.saturating_sub(width))
                || differs(place, place + width < tags.len(), place + width)
        })
        .collect()
}

impl Camera<'_> {
    /// Light that comes from one point of the picture, and a number for what is seen there: 0 for the background.
    fn sample(&mut self, x: f64, y: f64) -> ([f32; 3], u32) {
        let scene = self.scene;
        let (sine, cosine) = self.turn;
        let (right, down) = (x - self.middle.0, y - self.middle.1);
        let along = (right * cosine + down * sine) / scene.pixels_per_diameter;
        let across = (down * cosine - right * sine - scene.offset_px) / scene.pixels_per_diameter;
        let Some(body) = &self.body else {
            if scene.subject == Subject::Plain {
                return (self.paint.behind((x, y), across, along), 0);
            }
            let tone = cloth::brightness(scene, across, along, &mut self.dice);
            return (scene.colour.map(|part| part * tone), 0);
        };
        let hit = if across.abs() < body.reach(along) {
            body.hit(across, along)
        } else {
            None
        };
        match hit {
            Some(hit) => (self.paint.braid(&hit), hit.tag()),
            None => (self.paint.behind((x, y), across, along), 0),
        }
    }

    /// The mean of many points of one pixel.
    fn finer(&mut self, place: usize) -> [f32; 3] {
        let samples = self.scene.samples;
        let (column, row) = (
            place as u32 % self.scene.width,
            place as u32 / self.scene.width,
        );
        let mut sum = [0.0_f32; 3];
        for step in 0..samples * samples {
            let inside = |step: u32| (f64::from(step) + 0.5) / f64::from(samples);
            let (x, y) = (
                f64::from(column) + inside(step % samples),
                f64::from(row) + inside(step / samples),
            );
            let (colour, _) = self.sample(x, y);
            sum = [sum[0] + colour[0], sum[1] + colour[1], sum[2] + colour[2]];
        }
        sum.map(|part| part / (samples * samples) as f32)
    }
}

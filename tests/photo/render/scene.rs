//! What stands before the camera, and how it is taken.

use super::noise::Dice;

/// What the picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Subject {
    /// The braid of the scene.
    Braid,
    /// One family of threads wound round a core: a rope, no crossings.
    Rope,
    /// The background alone, with its change of light.
    Plain,
    /// Random brightness of each pixel.
    Speckle,
    /// A cloth of even stripes.
    Stripes,
    /// Loops of a knitted cloth.
    Knit,
    /// A flat cloth, one over one, threads at right angles.
    Cloth,
}

/// How far a thread floats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Pattern {
    /// One over one.
    Diamond,
    /// Two over two.
    Regular,
    /// Three over three.
    Hercules,
}

impl Pattern {
    /// Crossings after which a thread does the same again.
    pub(crate) fn repeat(self) -> u32 {
        match self {
            Self::Diamond => 2,
            Self::Regular => 4,
            Self::Hercules => 6,
        }
    }
}

/// The two families.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Family {
    /// Threads whose place round the axis grows along it.
    Rising,
    /// Threads whose place round the axis falls along it.
    Falling,
}

/// One thread that is not as the others on a stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Flaw {
    /// The family of the thread.
    pub(crate) family: Family,
    /// Its number in the family, from 0.
    pub(crate) index: u32,
    /// Where the stretch begins and ends along the axis, in diameters from the middle of the picture.
    pub(crate) stretch: (f64, f64),
    /// How far the thread stands out, in thread thicknesses; `None` where it is missing.
    pub(crate) stands_out: Option<f64>,
}

/// A rule beside the braid, its marks at the edge that faces it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Rule {
    /// Size of a millimetre in the picture, px.
    pub(crate) px_per_mm: f64,
    /// Distance of its edge from the axis, px; its sign says on which side, as that of `offset_px`.
    pub(crate) edge_px: f64,
}

/// What is seen beside the braid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Background {
    /// Colour in linear light, red, green, blue, 0 to 1.
    pub(crate) colour: [f32; 3],
    /// Soft spots, as a share of the brightness.
    pub(crate) mottle: f32,
    /// Depth of the braid's own shadow beside it, 0 for none to 1 for black.
    pub(crate) shadow: f32,
}

/// A picture to be taken. Lengths along and across the braid are in outer diameters unless named otherwise.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Scene {
    /// What is shown.
    pub(crate) subject: Subject,
    /// Threads of both families together on a full machine; a multiple of the pattern's repeat.
    pub(crate) threads: u32,
    /// How far a thread floats.
    pub(crate) pattern: Pattern,
    /// Braid angle at the path of the threads in the middle of the picture, degrees from the axis.
    pub(crate) angle_deg: f64,
    /// Change of the braid angle along the axis, degrees a diameter.
    pub(crate) angle_change_deg: f64,
    /// Change of the diameter along the axis: its growth over one diameter of length, as a share.
    pub(crate) diameter_change: f64,
    /// Width of a thread as a share of the spacing of its family, both measured across the thread.
    pub(crate) cover: f64,
    /// Width of a thread by its thickness.
    pub(crate) flatness: f64,
    /// Numbers of the engaged threads, rising and falling; `None` for a full load.
    pub(crate) engaged: Option<(Vec<u32>, Vec<u32>)>,
    /// One thread that is not as the others.
    pub(crate) flaw: Option<Flaw>,
    /// Turn of the braid about its axis, radians.
    pub(crate) turn: f64,
    /// Shift of the braid along its axis, diameters.
    pub(crate) shift: f64,
    /// Colour of the threads in linear light.
    pub(crate) colour: [f32; 3],
    /// Threads of another colour: numbers of rising threads, and the colour.
    pub(crate) tracers: Vec<(Family, u32, [f32; 3])>,
    /// Depth of the streaks along the threads, 0 for none to 1.
    pub(crate) fibre: f32,
    /// Angle of the fibres to their thread, degrees.
    pub(crate) twist_deg: f64,
    /// Spread of the brightness from thread to thread, as a share.
    pub(crate) unevenness: f32,
    /// How dark the valleys are, 0 for none to 1.
    pub(crate) occlusion: f32,
    /// Direction the light comes from, within the picture: degrees from its right towards its foot.
    pub(crate) light_deg: f64,
    /// Height of the light over the picture, degrees.
    pub(crate) light_height_deg: f64,
    /// Light from all sides, as a share of all light.
    pub(crate) ambient: f32,
    /// Brightness of the sheen.
    pub(crate) sheen: f32,
    /// What is seen beside the braid.
    pub(crate) background: Background,
    /// A rule beside the braid.
    pub(crate) rule: Option<Rule>,
    /// Width of the picture, px.
    pub(crate) width: u32,
    /// Height of the picture, px.
    pub(crate) height: u32,
    /// Outer diameter of the braid in the middle of the picture, px.
    pub(crate) pixels_per_diameter: f64,
    /// Direction of the axis in the picture: degrees from its right towards its foot.
    pub(crate) rotation_deg: f64,
    /// How far the axis is tipped towards the camera, degrees.
    pub(crate) slant_deg: f64,
    /// Distance of the axis from the middle of the picture, px: downwards where the axis runs to the right.
    pub(crate) offset_px: f64,
    /// Samples in each direction for a pixel where two threads border.
    pub(crate) samples: u32,
    /// Standard deviation of the blur, px.
    pub(crate) blur_px: f64,
    /// Change of the light from one corner to the opposite one, as a share.
    pub(crate) gradient: f32,
    /// Loss of light in the corners, as a share.
    pub(crate) corner_loss: f32,
    /// Standard deviation of the noise of each channel, of 255.
    pub(crate) noise_sd: f32,
    /// Quality of a round trip through a JPEG file, 1 to 100; `None` for none.
    pub(crate) jpeg_quality: Option<u8>,
    /// Everything left to chance follows from this.
    pub(crate) seed: u64,
}

impl Default for Scene {
    /// A clean picture of a full 16-thread braid, two over two, lying level.
    fn default() -> Self {
        Self {
            subject: Subject::Braid,
            threads: 16,
            pattern: Pattern::Regular,
            angle_deg: 45.0,
            angle_change_deg: 0.0,
            diameter_change: 0.0,
            cover: 0.96,
            flatness: 1.8,
            engaged: None,
            flaw: None,
            turn: 0.3,
            shift: 0.1,
            colour: [0.62, 0.60, 0.52],
            tracers: Vec::new(),
            fibre: 0.35,
            twist_deg: 0.0,
            unevenness: 0.06,
            occlusion: 0.7,
            light_deg: -120.0,
            light_height_deg: 50.0,
            ambient: 0.3,
            sheen: 0.15,
            background: Background {
                colour: [0.035, 0.045, 0.06],
                mottle: 0.15,
                shadow: 0.0,
            },
            rule: None,
            width: 1000,
            height: 600,
            pixels_per_diameter: 240.0,
            rotation_deg: 0.0,
            slant_deg: 0.0,
            offset_px: 0.0,
            samples: 3,
            blur_px: 0.6,
            gradient: 0.0,
            corner_loss: 0.0,
            noise_sd: 1.5,
            jpeg_quality: None,
            seed: 1,
        }
    }
}

impl Scene {
    /// A picture such as a maker may take: any pattern, any turn, light from anywhere, some blur, noise and JPEG.
    pub(crate) fn random(seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        let (threads, pattern) = dice.pick(&[
            (8, Pattern::Diamond),
            (8, Pattern::Regular),
            (12, Pattern::Regular),
            (12, Pattern::Hercules),
            (16, Pattern::Diamond),
            (16, Pattern::Regular),
            (24, Pattern::Regular),
            (24, Pattern::Hercules),
            (32, Pattern::Diamond),
            (32, Pattern::Regular),
        ]);
        let bright = dice.between(0.15, 0.75) as f32;
        let warm = dice.between(0.75, 1.1) as f32;
        let behind = if bright > 0.4 {
            dice.between(0.02, 0.12) as f32
        } else {
            dice.between(0.5, 0.8) as f32
        };
        let rotation_deg = dice.between(0.0, 360.0);
        let pixels_per_diameter = dice.between(10.0, 18.0) * f64::from(threads).max(12.0);
        Self {
            threads,
            pattern,
            angle_deg: dice.between(25.0, 62.0),
            cover: dice.between(0.86, 1.04),
            flatness: dice.between(1.5, 2.0),
            turn: dice.between(0.0, std::f64::consts::TAU),
            shift: dice.between(0.0, 1.0),
            colour: [bright, bright * 0.5 * (1.0 + warm), bright * warm],
            fibre: dice.between(0.1, 0.5) as f32,
            twist_deg: dice.between(-4.0, 4.0),
            unevenness: dice.between(0.0, 0.1) as f32,
            occlusion: dice.between(0.4, 0.9) as f32,
            light_deg: dice.between(0.0, 360.0),
            light_height_deg: dice.between(35.0, 75.0),
            ambient: dice.between(0.2, 0.5) as f32,
            sheen: dice.between(0.0, 0.3) as f32,
            background: Background {
                colour: [behind, behind, behind * dice.between(0.8, 1.2) as f32],
                mottle: dice.between(0.0, 0.25) as f32,
                shadow: dice.pick(&[0.0, 0.0, 0.4, 0.7]),
            },
            pixels_per_diameter,
            rotation_deg,
            slant_deg: dice.between(-3.0, 3.0),
            offset_px: dice.between(-40.0, 40.0),
            blur_px: dice.between(0.3, 1.4),
            gradient: dice.between(0.0, 0.4) as f32,
            corner_loss: dice.between(0.0, 0.3) as f32,
            noise_sd: dice.between(0.5, 5.0) as f32,
            jpeg_quality: dice.pick(&[None, Some(75), Some(85), Some(92)]),
            seed,
            ..Self::default()
        }
    }
}

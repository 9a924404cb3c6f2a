//! What lens, light and file do to a picture.

use std::io::Cursor;

use image::codecs::jpeg::{JpegDecoder, JpegEncoder};
use image::{DynamicImage, ExtendedColorType};

use super::noise::Dice;
use super::scene::Scene;

/// A taken picture: 8 bits a channel, red, green, blue, opaque, row by row from above.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Photo {
    /// Width, px.
    pub(crate) width: u32,
    /// Height, px.
    pub(crate) height: u32,
    /// Four bytes a pixel.
    pub(crate) rgba: Vec<u8>,
}

impl Photo {
    fn rgb(&self) -> Vec<u8> {
        self.rgba
            .chunks_exact(4)
            .flat_map(|pixel| [pixel[0], pixel[1], pixel[2]])
            .collect()
    }

    /// The picture as a PNG file.
    pub(crate) fn png(&self) -> Vec<u8> {
        let mut file = Vec::new();
        let encoder = image::codecs::png::PngEncoder::new(&mut file);
        image::ImageEncoder::write_image(
            encoder,
            &self.rgba,
            self.width,
            self.height,
            ExtendedColorType::Rgba8,
        )
        .expect("four bytes a pixel");
        file
    }

    /// The picture as a JPEG file of a quality from 1 to 100.
    pub(crate) fn jpeg(&self, quality: u8) -> Vec<u8> {
        let mut file = Vec::new();
        JpegEncoder::new_with_quality(&mut file, quality)
            .encode(
                &self.rgb(),
                self.width,
                self.height,
                ExtendedColorType::Rgb8,
            )
            .expect("three bytes a pixel");
        file
    }

    /// The picture after a round trip through a JPEG file.
    fn through_jpeg(&self, quality: u8) -> Self {
        let file = self.jpeg(quality);
        let decoder = JpegDecoder::new(Cursor::new(file)).expect("a file just written");
        let image = DynamicImage::from_decoder(decoder).expect("a file just written");
        Self {
            rgba: image.to_rgba8().into_raw(),
            ..*self
        }
    }
}

/// The picture of linear light as the camera of the scene keeps it.
pub(crate) fn develop(scene: &Scene, mut light: Vec<[f32; 3]>) -> Photo {
    let (width, height) = (scene.width as usize, scene.height as usize);
    if scene.blur_px > 0.0 {
        blur(&mut light, width, height, scene.blur_px);
    }
    let curve = curve();
    let mut dice = Dice::new(scene.seed ^ 0x0F11);
    let mut rgba = Vec::with_capacity(4 * light.len());
    let (middle_x, middle_y) = (0.5 * width as f32, 0.5 * height as f32);
    for (row, line) in light.chunks_exact(width).enumerate() {
        let down = (row as f32 - middle_y) / middle_y;
        for (column, pixel) in line.iter().enumerate() {
            let right = (column as f32 - middle_x) / middle_x;
            let corner = 0.5 * (right * right + down * down);
            let lit =
                (1.0 + 0.25 * scene.gradient * (right + down)) * (1.0 - scene.corner_loss * corner);
            for part in pixel {
                let exact = curve[((part * lit).clamp(0.0, 1.0) * 4095.0) as usize];
                let noise = if scene.noise_sd > 0.0 {
                    scene.noise_sd * dice.normal()
                } else {
                    0.0
                };
                rgba.push((exact + noise + 0.5).clamp(0.0, 255.0) as u8);
            }
            rgba.push(255);
        }
    }
    let photo = Photo {
        width: scene.width,
        height: scene.height,
        rgba,
    };
    match scene.jpeg_quality {
        Some(quality) => photo.through_jpeg(quality),
        None => photo,
    }
}

/// From linear light to the eighth bits of a screen: IEC 61966-2-1 (from memory).
fn curve() -> Vec<f32> {
    (0..4096)
        .map(|step| {
            let light = step as f32 / 4095.0;
            let value = if light <= 0.003_130_8 {
                12.92 * light
            } else {
                1.055 * light.powf(1.0 / 2.4) - 0.055
            };
            255.0 * value
        })
        .collect()
}

/// Gaussian blur, across and then down; the edge goes on beyond the picture.
fn blur(light: &mut [[f32; 3]], width: usize, height: usize, sigma: f64) {
    let reach = (2.8 * sigma).ceil() as i32;
    let weights: Vec<f32> = (-reach..=reach)
        .map(|step| (-0.5 * (f64::from(step) / sigma).powi(2)).exp() as f32)
        .collect();
    let sum: f32 = weights.iter().sum();
    let weights: Vec<f32> = weights.iter().map(|weight| weight / sum).collect();
    let reach = reach as usize;
    let mut line = vec![[0.0; 3]; width + 2 * reach];
    for row in light.chunks_exact_mut(width) {
        line[..reach].fill(row[0]);
        line[reach..reach + width].copy_from_slice(row);
        line[reach + width..].fill(row[width - 1]);
        for (pixel, near) in row.iter_mut().zip(line.windows(weights.len())) {
            let mut sum = [0.0; 3];
            for (from, weight) in near.iter().zip(&weights) {
                sum = [
                    sum[0] + from[0] * weight,
                    sum[1] + from[1] * weight,
                    sum[2] + from[2] * weight,
                ];
            }
            *pixel = sum;
        }
    }
    // Whole rows are added, so memory is read in its order.
    let source = light.to_vec();
    for (row, sums) in light.chunks_exact_mut(width).enumerate() {
        sums.fill([0.0; 3]);
        for (step, weight) in weights.iter().enumerate() {
            let from = (row + step).saturating_sub(reach).min(height - 1) * width;
            for (sum, from) in sums.iter_mut().zip(&source[from..from + width]) {
                *sum = [
                    sum[0] + from[0] * weight,
                    sum[1] + from[1] * weight,
                    sum[2] + from[2] * weight,
                ];
            }
        }
    }
}

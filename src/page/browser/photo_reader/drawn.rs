//! A photograph drawn, and a small one to save.

use js_sys::Reflect;
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageBitmap};

use super::{OpenedPicture, PictureCrop};
use crate::keep::book::{PICTURE_ROOM, PICTURE_SIDE};

/// Draws a photograph, one pixel of it for each pixel of the element, which takes its size.
pub(in crate::page) fn draw(canvas: &HtmlCanvasElement, picture: &OpenedPicture) {
    canvas.set_width(picture.width);
    canvas.set_height(picture.height);
    if let Some(context) = context(canvas) {
        // Refused only for a picture that is no more.
        let _ = context.draw_image_with_image_bitmap(&picture.bitmap, 0.0, 0.0);
    }
}

/// Longest sides that are tried, pixels, the longest first, and qualities of each, 0 to 1. Our own choice.
const SIDES: [u16; 5] = [640, 480, 320, 200, 120];
const QUALITIES: [f64; 3] = [0.8, 0.6, 0.4];
// The book keeps no larger picture.
const _: () = assert!(SIDES[0] < PICTURE_SIDE);
/// How the address of a picture in this format begins.
const JPEG: &str = "data:image/jpeg";

/// A part of a picture as a small JPEG in a data address that a bench book has room for ([`PICTURE_ROOM`]); `None` where the browser makes
/// none.
pub(in crate::page) fn small_picture(picture: &ImageBitmap, crop: PictureCrop) -> Option<String> {
    SIDES
        .iter()
        .find_map(|&side| of_side(picture, crop, side.into()))
}

fn of_side(picture: &ImageBitmap, crop: PictureCrop, side: f64) -> Option<String> {
    let scale = (side / crop.width.max(crop.height)).min(1.0);
    let (width, height) = (
        (crop.width * scale).max(1.0),
        (crop.height * scale).max(1.0),
    );
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.unchecked_into();
    canvas.set_width(whole(width));
    canvas.set_height(whole(height));
    let context = context(&canvas)?;
    // Where a browser knows no such choice, it draws as it always does.
    let _ = Reflect::set(&context, &"imageSmoothingQuality".into(), &"high".into());
    let PictureCrop { left, top, .. } = crop;
    let drawn = context.draw_image_with_image_bitmap_and_sw_and_sh_and_dx_and_dy_and_dw_and_dh(
        picture,
        left,
        top,
        crop.width,
        crop.height,
        0.0,
        0.0,
        width,
        height,
    );
    drawn.ok()?;
    QUALITIES.iter().find_map(|&quality| {
        let quality = JsValue::from_f64(quality);
        let address = canvas.to_data_url_with_type_and_encoder_options("image/jpeg", &quality);
        address
            .ok()
            .filter(|address| address.starts_with(JPEG) && address.len() <= PICTURE_ROOM)
    })
}

fn context(canvas: &HtmlCanvasElement) -> Option<CanvasRenderingContext2d> {
    Some(canvas.get_context("2d").ok()??.unchecked_into())
}

/// Pixels of a side.
// The numbers are between 1 and the longest side.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn whole(pixels: f64) -> u32 {
    pixels as u32
}

//! A file opened as a picture: decoded by the browser, the right way up, and scaled to what is worked on.

use js_sys::{Object, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, ImageBitmap, ImageBitmapOptions, ImageOrientation, OffscreenCanvas,
    OffscreenCanvasRenderingContext2d as Context,
};

use super::scope::scope;
use crate::page::photo_message::{LARGEST_FILE, PhotoUnopened};
use crate::page::picture_size::steps;
use crate::photo::Picture;

/// A picture that was opened.
pub(super) struct Opened {
    /// Its brightness.
    pub(super) picture: Picture,
    /// The same for the page to draw.
    pub(super) bitmap: ImageBitmap,
    /// Width and height of both, pixels.
    pub(super) size: (u32, u32),
}

/// Opens a file.
///
/// # Errors
/// [`PhotoUnopened`] says what is wrong with it.
pub(super) async fn opened(file: &Blob) -> Result<Opened, PhotoUnopened> {
    if file.size() == 0.0 {
        return Err(PhotoUnopened::Empty);
    }
    if file.size() > LARGEST_FILE {
        return Err(PhotoUnopened::TooLarge);
    }
    let whole = decoded(file).await;
    let opened = whole.and_then(|whole| scaled(&whole));
    // Browsers tell of files that are no pictures, and of pictures for which they have no room, in the same way.
    opened.map_err(|_| PhotoUnopened::NotAPicture)
}

/// The whole picture. A camera notes in the file how it was held.
async fn decoded(file: &Blob) -> Result<ImageBitmap, JsValue> {
    let options = ImageBitmapOptions::new();
    options.set_image_orientation(ImageOrientation::FromImage);
    let asked = scope().create_image_bitmap_with_blob_and_image_bitmap_options(file, &options);
    let bitmap = match asked {
        Ok(coming) => JsFuture::from(coming).await,
        Err(reason) => Err(reason),
    };
    // Browsers that do not know this choice do it in any case.
    let bitmap = match bitmap {
        Ok(bitmap) => bitmap,
        Err(_) => JsFuture::from(scope().create_image_bitmap_with_blob(file)?).await?,
    };
    bitmap.dyn_into()
}

fn scaled(whole: &ImageBitmap) -> Result<Opened, JsValue> {
    let mut drawn: Option<(OffscreenCanvas, Context)> = None;
    let mut size = (whole.width(), whole.height());
    for next in steps(size.0, size.1) {
        let (canvas, context) = canvas(next)?;
        let (width, height) = (f64::from(next.0), f64::from(next.1));
        match &drawn {
            None => context
                .draw_image_with_image_bitmap_and_dw_and_dh(whole, 0.0, 0.0, width, height)?,
            Some((before, _)) => context
                .draw_image_with_offscreen_canvas_and_dw_and_dh(before, 0.0, 0.0, width, height)?,
        }
        // It may hold 200 MB.
        whole.close();
        drawn = Some((canvas, context));
        size = next;
    }
    let missing = || JsValue::from("nothing was drawn");
    let (canvas, context) = drawn.ok_or_else(missing)?;
    let data = context.get_image_data(0.0, 0.0, f64::from(size.0), f64::from(size.1))?;
    let picture = Picture::from_rgba(size.0 as usize, size.1 as usize, &data.data());
    Ok(Opened {
        picture: picture.ok_or_else(missing)?,
        bitmap: canvas.transfer_to_image_bitmap()?,
        size,
    })
}

/// A white canvas: what a picture leaves transparent is paper.
fn canvas((width, height): (u32, u32)) -> Result<(OffscreenCanvas, Context), JsValue> {
    let canvas = OffscreenCanvas::new(width, height)?;
    let options = Object::new();
    Reflect::set(&options, &"willReadFrequently".into(), &true.into())?;
    let context = canvas.get_context_with_context_options("2d", &options)?;
    let context: Context = context.ok_or("there is no such canvas")?.unchecked_into();
    context.set_fill_style_str("white");
    context.fill_rect(0.0, 0.0, f64::from(width), f64::from(height));
    Ok((canvas, context))
}

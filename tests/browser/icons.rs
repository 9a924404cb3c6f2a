//! The icons are pictures of one drawing, `style/icon.svg`. After a change of it they are made again by
//! `cargo test --test browser icons::are_made -- --ignored`, once the site is built with it.

use std::fs;
use std::path::{Path, PathBuf};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

use super::harness::on_the_page;
use super::page::Page;

/// Name, pixels on a side, and the share of them that the drawing takes.
const ICONS: [(&str, u32, f64); 3] = [
    ("icon-192.png", 192, 1.0),
    ("icon-512.png", 512, 1.0),
    (MASKABLE, 512, 0.8),
];
/// A device may cut it to any shape.
const MASKABLE: &str = "icon-maskable.png";

/// How many pixels are of another colour than the corner, outside of the circle that every device leaves: two fifths of the
/// width round the middle. Source: W3C Web Application Manifest, on icon masks.
const OUTSIDE: &str = r"
    const [address, done] = arguments;
    const picture = new Image();
    picture.src = address;
    picture.decode().then(() => {
        const side = picture.naturalWidth;
        const canvas = Object.assign(document.createElement('canvas'), { width: side, height: side });
        const context = canvas.getContext('2d');
        context.drawImage(picture, 0, 0);
        const { data } = context.getImageData(0, 0, side, side);
        const ground = data.slice(0, 4).join();
        const far = (at) => Math.hypot(at % side + 0.5 - side / 2, Math.floor(at / side) + 0.5 - side / 2) > 0.4 * side;
        // Blending a colour with itself may round.
        const other = (at) => far(at) && [0, 1, 2, 3].some((value) => Math.abs(data[4 * at + value] - data[value]) > 2);
        done([ground, [...Array(side * side).keys()].filter(other).length]);
    });";

/// The drawing painted at a size; what lies round it has the colour of its ground.
const PAINT: &str = r"
    const [side, share, done] = arguments;
    const drawing = new Image(side, side);
    drawing.onload = () => {
        const canvas = Object.assign(document.createElement('canvas'), { width: side, height: side });
        const context = canvas.getContext('2d');
        if (share < 1) {
            context.drawImage(drawing, 0, 0, side, side);
            context.fillStyle = `rgb(${[...context.getImageData(side / 2, 4, 1, 1).data.slice(0, 3)]})`;
            context.fillRect(0, 0, side, side);
        }
        const edge = side * (1 - share) / 2;
        context.drawImage(drawing, edge, edge, side * share, side * share);
        done(canvas.toDataURL('image/png'));
    };
    drawing.src = document.querySelector('link[rel=icon]').href;";

/// Greatest difference of any of the four values of any pixel between two pictures.
const DIFFERENCE: &str = r"
    const [one, other, done] = arguments;
    const pixels = async (address) => {
        const picture = new Image();
        picture.src = address;
        await picture.decode();
        const canvas = Object.assign(document.createElement('canvas'), { width: picture.naturalWidth, height: picture.naturalHeight });
        const context = canvas.getContext('2d');
        context.drawImage(picture, 0, 0);
        return context.getImageData(0, 0, canvas.width, canvas.height).data;
    };
    Promise.all([pixels(one), pixels(other)]).then(([one, other]) =>
        done(one.length === other.length ? one.reduce((most, value, at) => Math.max(most, Math.abs(value - other[at])), 0) : 255));";

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("style")
        .join(name)
}

fn kept(name: &str) -> Value {
    let bytes = fs::read(path(name)).expect("the icon is there");
    json!(format!("data:image/png;base64,{}", STANDARD.encode(bytes)))
}

async fn painted(page: &Page, side: u32, share: f64) -> String {
    let args = vec![json!(side), json!(share)];
    let picture = page.session.client.execute_async(PAINT, args).await;
    serde_json::from_value(picture.expect("the drawing is painted")).expect("an address")
}

#[test]
fn show_the_drawing() {
    on_the_page(async |page| {
        for (name, side, share) in ICONS {
            let args = vec![kept(name), json!(painted(page, side, share).await)];
            let most = page.session.client.execute_async(DIFFERENCE, args).await;
            // Another browser may round edges another way.
            let most = most.expect("pictures compare").as_u64().expect("a number");
            assert!(
                most <= 24,
                "{name} differs from the drawing by {most} of 255"
            );
        }
    });
}

#[test]
fn a_device_that_cuts_the_icon_cuts_nothing_off_the_drawing() {
    on_the_page(async |page| {
        let answer = page
            .session
            .client
            .execute_async(OUTSIDE, vec![kept(MASKABLE)])
            .await;
        assert_eq!(
            answer.expect("the icon is read"),
            json!(["238,240,234,255", 0])
        );
    });
}

#[test]
#[ignore = "draws the icons again"]
fn are_made() {
    on_the_page(async |page| {
        for (name, side, share) in ICONS {
            let picture = painted(page, side, share).await;
            let data = picture
                .split(',')
                .next_back()
                .expect("an address has its data");
            let bytes = STANDARD.decode(data).expect("of base64");
            fs::write(path(name), bytes).expect("the icon is written");
        }
    });
}

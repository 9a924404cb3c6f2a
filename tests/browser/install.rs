//! The page can be installed on a tablet: by what the browser itself says of it.
//!
//! Sources: W3C Web Application Manifest, as Chromium reads it; Chromium's own criteria for installing.

use serde_json::{Value, json};

use super::shed::in_a_shed;

/// Width and height of every icon that the manifest names, as the browser paints it.
const ICONS: &str = r"
    const [manifest, done] = arguments;
    const sizes = manifest.icons.map(async ({ src, sizes, type }) => {
        const answer = await fetch(src);
        const picture = await createImageBitmap(await answer.blob());
        return [`${picture.width}x${picture.height}`, sizes, answer.headers.get('content-type'), type];
    });
    Promise.all(sizes).then(done);";

#[test]
fn the_browser_finds_nothing_against_installing() {
    in_a_shed(async |shed| {
        shed.nest("inner");
        let page = shed.visitor().await;
        for rest in ["", "inner/"] {
            if !rest.is_empty() {
                page.go(rest).await;
            }
            page.until_ready().await;
            let read = page.session.cdp("Page.getAppManifest", &json!({}));
            assert_eq!(read["errors"], json!([]));
            let home = format!("{}/{rest}", shed.origin);
            assert_eq!(read["manifest"]["startUrl"], json!(home));
            assert_eq!(read["manifest"]["scope"], json!(home));
            let against = page.session.cdp("Page.getInstallabilityErrors", &json!({}));
            assert_eq!(against["installabilityErrors"], json!([]));
            let text = read["data"].as_str().expect("the manifest is a text");
            let manifest: Value = serde_json::from_str(text).expect("of JSON");
            let icons = page
                .session
                .client
                .execute_async(ICONS, vec![manifest])
                .await;
            let icons: Vec<[String; 4]> =
                serde_json::from_value(icons.expect("icons are painted")).expect("four words each");
            assert_eq!(icons.len(), 3);
            for [size, wanted, kind, stated] in icons {
                assert_eq!((size, kind), (wanted, stated));
            }
        }
        page.assert_untroubled();
        page.leave().await;
    });
}

//! Takes pictures of pages that stand in a folder, as `cargo xtask gallery` calls it: `pictures FOLDER [PART ...]`,
//! where only pages are taken whose names hold one of the parts. `NAME.phone.html` becomes `NAME.phone.paper.png` and
//! so on; what does not fit on the screen is taken once more as `NAME.phone.whole.png`. Tells what runs over the width
//! and what is too small for a thumb.

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};
use stillwood_tests::browser::{Browser, Device, Folder, Page};

/// A device's name, width and height.
const DEVICES: [(&str, u64, u64); 2] = [("phone", 390, 844), ("laptop", 1440, 900)];

/// The colours, as the page's element is told of them.
const SCHEMES: [&str; 3] = ["paper", "shed", "sun"];

/// What does not fit: the width that it takes, and what is pressed and too small for a thumb.
const UNFIT: &str = "
    const small = [...document.querySelectorAll('[data-press], input, select, textarea, summary')]
        .filter(one => one.checkVisibility() && !one.closest('.dense, p, dd, dt, td'))
        .map(one => [one, (one.closest('label') ?? one).getBoundingClientRect()])
        .filter(([, box]) => box.width > 0 && (box.height < 44 || box.width < 44))
        .map(([one, box]) => `${Math.round(box.width)} x ${Math.round(box.height)} ${one.className} ${one.innerText}`);
    return { width: document.documentElement.scrollWidth, height: document.documentElement.scrollHeight, small };";

fn main() {
    let mut words = std::env::args_os().skip(1);
    let folder = PathBuf::from(words.next().expect("a folder"));
    let parts: Vec<String> = words
        .map(|part| part.to_string_lossy().into_owned())
        .collect();
    let asked = |name: &str| parts.is_empty() || parts.iter().any(|part| name.contains(part));
    let folder = fs::canonicalize(folder).expect("the folder");
    let mut pages: Vec<String> = fs::read_dir(&folder)
        .expect("the folder")
        .map(|entry| entry.expect("a file").file_name())
        .filter_map(|name| Some(name.to_str()?.strip_suffix(".html")?.to_owned()))
        .filter(|name| name.contains('.') && asked(name))
        .collect();
    pages.sort();
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .expect("a runtime");
    runtime.block_on(take(&folder, &pages));
}

async fn take(folder: &Path, pages: &[String]) {
    let profile = Folder::new("pictures");
    let browser = Browser::start(Device::Laptop, &profile).await;
    let page = browser.page();
    for name in pages {
        let device = DEVICES
            .iter()
            .find(|(device, ..)| name.ends_with(&format!(".{device}")));
        let Some(&(_, width, height)) = device else {
            continue;
        };
        sized(&page, width, height).await;
        let address = format!("file://{}/{name}.html", folder.display());
        page.web().goto(&address).await.expect("the page");
        page.js_async("document.fonts.ready.then(() => done())", vec![])
            .await;
        for scheme in SCHEMES {
            let script = "document.documentElement.dataset.scheme = arguments[0]";
            page.js(script, vec![json!(scheme)]).await;
            picture(&page, &folder.join(format!("{name}.{scheme}.png"))).await;
        }
        let script = "document.documentElement.dataset.scheme = 'paper'";
        page.js(script, vec![]).await;
        let unfit = page.js(UNFIT, vec![]).await;
        tell(name, &unfit, width);
        let whole = folder.join(format!("{name}.whole.png"));
        match unfit["height"].as_u64() {
            Some(all) if all > height => {
                sized(&page, width, all).await;
                picture(&page, &whole).await;
            }
            _ if whole.exists() => fs::remove_file(&whole).expect("what was longer before"),
            _ => {}
        }
    }
    browser.close().await;
    println!("{} pages in {} schemes", pages.len(), SCHEMES.len());
}

async fn sized(page: &Page, width: u64, height: u64) {
    let size =
        json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600 });
    page.cdp("Emulation.setDeviceMetricsOverride", size).await;
}

async fn picture(page: &Page, file: &Path) {
    let taken = page.cdp("Page.captureScreenshot", json!({ "format": "png" }));
    let taken = taken.await;
    let data = taken["data"].as_str().expect("a picture");
    let bytes = BASE64_STANDARD.decode(data).expect("its bytes");
    fs::write(file, bytes).expect("its file");
}

fn tell(name: &str, unfit: &Value, width: u64) {
    if let Some(takes) = unfit["width"].as_u64().filter(|takes| *takes > width) {
        println!("{name}: runs over the width: {takes} of {width}");
    }
    for small in unfit["small"].as_array().into_iter().flatten() {
        let small = small.as_str().unwrap_or_default().replace('\n', " ");
        println!("{name}: too small for a thumb: {small}");
    }
}

//! A list of hundreds of planks under the thumb and the keyboard: rows are drawn where
//! the view is, and arrows move the choice and nothing else.

use serde_json::json;
use stillwood_core::plank::Field;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run, steps};
use stillwood_tests::yard::Phone;

const PLANKS: usize = 400;

/// A record of many planks.
fn many() -> String {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    for n in 0..PLANKS {
        let length = (2000 + n).to_string();
        phone.plank(
            pile,
            &format!("K7-{n}"),
            &[(Field::Length, length.as_str())],
        );
    }
    phone.file()
}

/// The marks of the rows of the list that stand in the view.
const IN_VIEW: &str = "[...document.querySelectorAll('#planks > li:not(.spacer, .more-rows), #planks tbody tr[aria-rowindex]')]\
    .filter((row) => (b => b.bottom > 80 && b.top < innerHeight - 80)(row.getBoundingClientRect())).length";

async fn open_list(page: &Page, files: &Folder, address: &str) {
    page.open(address).await;
    steps::bring_in(page, &files.put("many.json", many())).await;
    page.go_to("#/planks").await;
    page.see("#head", &format!("{PLANKS} planks")).await;
    let rows = page
        .js(
            "return document.querySelectorAll('#planks .item, #planks tbody th a').length",
            vec![],
        )
        .await;
    assert!(
        rows.as_u64().is_some_and(|rows| rows <= 100),
        "{rows} rows are drawn"
    );
}

/// Scrolls through the list by halves of a view; at each place rows stand in view, at the end the last of them.
async fn through(page: &Page, scroller: &str) {
    for part in [0.1, 0.5, 0.9, 1.0, 0.3, 0.0] {
        let script = format!(
            "const e = {scroller}; e.scrollTop = (e.scrollHeight - e.clientHeight) * arguments[0];"
        );
        page.js(&script, vec![json!(part)]).await;
        page.wait_for(
            &format!("rows at {part} of the list"),
            &format!("{IN_VIEW} >= 5"),
            vec![],
        )
        .await;
    }
}

#[test]
fn rows_come_as_a_thumb_scrolls_the_page() {
    run(async {
        let (profile, files) = (Folder::new("next-long"), Folder::new("next-files"));
        let server = Server::start();
        let phone = Browser::start(Device::Phone, &profile).await;
        let page = phone.page();
        open_list(&page, &files, server.address()).await;
        through(&page, "document.scrollingElement").await;
        phone.close().await;
    });
}

#[test]
fn rows_come_as_the_list_beside_the_pane_scrolls_and_arrows_move_the_choice() {
    run(async {
        let (profile, files) = (Folder::new("next-long"), Folder::new("next-files"));
        let server = Server::start();
        let laptop = Browser::start(Device::Laptop, &profile).await;
        let page = laptop.page();
        open_list(&page, &files, server.address()).await;
        through(&page, "document.querySelector('#body')").await;
        page.js("document.activeElement.blur()", vec![]).await;
        // The first rows are in view: going down one does not scroll. The first stands beside the list as it opens.
        let at = "return [document.querySelector('#body').scrollTop, scrollY]";
        for row in 3..7 {
            page.cdp("Input.dispatchKeyEvent", arrow("keyDown")).await;
            page.cdp("Input.dispatchKeyEvent", arrow("keyUp")).await;
            page.wait_for(
                "the row to be chosen",
                "document.querySelector('#chosen-row')?.ariaRowIndex === arguments[0]",
                vec![json!(row.to_string())],
            )
            .await;
            assert_eq!(page.js(at, vec![]).await, json!([0, 0]), "at row {row}");
        }
        laptop.close().await;
    });
}

fn arrow(kind: &str) -> serde_json::Value {
    json!({ "type": kind, "key": "ArrowDown", "code": "ArrowDown", "windowsVirtualKeyCode": 40 })
}

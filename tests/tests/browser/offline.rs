//! Without a network, and with a new version: once visited, the app opens and works with no server there; a newer
//! version never swaps itself in under a half-typed plank, nor when it is not whole.

use serde_json::{Value, json};
use std::time::Duration;
use stillwood_tests::browser::steps;
use stillwood_tests::browser::{Browser, Device, Dist, Folder, HOPPLE, Page, Pile, Server, run};

/// Waits until the app can do without a network.
async fn ready_offline(page: &Page) {
    let script = "(async () => {\
        const reg = await navigator.serviceWorker.getRegistration();\
        window.__worker = ['installing', 'waiting', 'active'].map(at => `${at}: ${reg?.[at]?.state}`).join();\
    })(), navigator.serviceWorker.controller";
    let found = tokio::time::timeout(
        Duration::from_secs(50),
        page.wait_for("the worker in charge", script, vec![]),
    );
    if found.await.is_err() {
        let how = page.js("return window.__worker", vec![]).await;
        page.fail(&format!("no worker is in charge: {how}")).await;
    }
}

/// Waits until the browser itself has started: Chromium puts off every look for a newer version until one of its
/// pages has been idle for a while, at most three minutes. The page is left alone meanwhile.
async fn browser_started(page: &Page) {
    let script = "navigator.serviceWorker.getRegistration().then(r => r.update())\
                  .then(() => { window.__looked = true })";
    page.js(script, vec![]).await;
    let looked = async {
        while page
            .js("return window.__looked ?? null", vec![])
            .await
            .is_null()
        {
            tokio::time::sleep(Duration::from_millis(250)).await;
        }
    };
    let ended = tokio::time::timeout(Duration::from_secs(200), looked).await;
    assert!(ended.is_ok(), "the browser looks for no newer version");
}

/// Looks for a newer version, as the app does by itself now and then.
async fn look(page: &Page) {
    let script = "navigator.serviceWorker.getRegistration().then(r => r.update())\
                  .then(() => done('looked'), e => done(String(e)))";
    assert_eq!(page.js_async(script, vec![]).await, "looked");
}

/// Waits until a version, and no other, waits to take over.
async fn waits(page: &Page, version: &str) {
    let script = "(async () => {\
        const reg = await navigator.serviceWorker.getRegistration();\
        const kept = (await caches.keys()).some(name => name.endsWith(arguments[0]));\
        window.__waits = kept && !!reg.waiting && !reg.installing;\
    })(), window.__waits";
    page.wait_for(
        &format!("version {version} to wait"),
        script,
        vec![json!(version)],
    )
    .await;
    page.js("window.__waits = false", vec![]).await;
}

/// The version of the page that is open.
async fn version(page: &Page) -> String {
    let build = page.js(
        "return document.querySelector('meta[name=build]')?.content",
        vec![],
    );
    build.await.as_str().unwrap_or_default().to_owned()
}

/// Marks the page, so that it shows when it was loaded anew.
async fn mark_page(page: &Page) {
    page.js("window.__same = true", vec![]).await;
}

async fn is_same_page(page: &Page) -> bool {
    page.js("return window.__same === true", vec![]).await == Value::Bool(true)
}

#[test]
fn with_no_network_at_all_a_plank_is_kept_and_stays() {
    run(async {
        let profile = Folder::new("next-no-network");
        let mut server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = steps::address(&page).await;
        ready_offline(&page).await;

        server.stop();
        page.network(false).await;
        page.reload().await;
        steps::turned_over(&page, 0).await;
        let mark = steps::quick_plank(&page, "2620").await;
        page.reload().await;
        assert_eq!(steps::address(&page).await, pile);
        steps::turned_over(&page, 1).await;
        assert!(steps::marks_once(&page).await.contains(&mark));
        // Screens that the first visit never opened.
        for (screen, title) in [
            ("#/carry", "Save and share"),
            ("#/workshop", "Racks"),
            ("#/about", "Cautions and sources"),
        ] {
            page.go_to(screen).await;
            steps::titled(&page, title).await;
        }
        browser.close().await;
    });
}

#[test]
fn the_sample_opens_and_closes_without_a_network() {
    run(async {
        let profile = Folder::new("next-sample");
        let mut server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        ready_offline(&page).await;
        server.stop();
        page.network(false).await;
        page.reload().await;
        steps::press(&page, "Open the sample workshop").await;
        page.see("#head .chip.note", "Sample workshop").await;
        page.go_to("#/yard").await;
        page.see("#body", "Plumlatch Lumber").await;
        page.go_to("#/").await;
        steps::press(&page, "Close the sample").await;
        page.see("#body", "Open the sample workshop").await;
        page.gone("#head .chip.note").await;
        browser.close().await;
    });
}

/// A page that was loaded past the worker, as a forced reload does, holds no newer one back and is not told that one
/// took over.
#[test]
fn a_page_that_no_worker_serves_goes_over_to_a_new_version_too() {
    run(async {
        let (profile, dist) = (Folder::new("unserved"), Dist::copy());
        let server = Server::of(dist.path());
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        ready_offline(&page).await;
        browser_started(&page).await;
        mark_page(&page).await;
        page.cdp("Page.reload", json!({ "ignoreCache": true }))
            .await;
        page.wait_for("the page anew", "!window.__same", vec![])
            .await;
        page.stands().await;
        let served = page.js("return !!navigator.serviceWorker.controller", vec![]);
        assert_eq!(served.await, json!(false));
        let second = dist.release();
        look(&page).await;
        page.go_to("#/yard").await;
        page.see("#notices", "A new version is ready").await;
        steps::press(&page, "Update now").await;
        page.wait_for(
            "the new version",
            "document.querySelector('meta[name=build]')?.content === arguments[0]",
            vec![json!(second)],
        )
        .await;
        page.stands().await;
        browser.close().await;
    });
}

#[test]
fn a_new_version_waits_for_the_word_and_keeps_what_is_half_typed() {
    run(async {
        let (profile, dist) = (Folder::new("next-update"), Dist::copy());
        let server = Server::of(dist.path());
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = steps::address(&page).await;
        ready_offline(&page).await;
        browser_started(&page).await;
        let first = version(&page).await;

        // A second window on the same record, with a half-typed plank of its own.
        let front = page.web().window().await.expect("a window");
        let other = page.web().new_tab().await.expect("a second window");
        page.to_window(other.clone()).await;
        page.open(&format!("{}{pile}", server.address())).await;
        steps::begin_plank(&page).await;
        steps::keys(&page, "19").await;
        mark_page(&page).await;

        page.to_window(front.clone()).await;
        steps::begin_plank(&page).await;
        steps::keys(&page, "2620 next 21").await;
        let measuring = steps::address(&page).await;
        mark_page(&page).await;
        let second = dist.release();
        look(&page).await;
        waits(&page, &second).await;
        assert!(
            is_same_page(&page).await,
            "nothing is swapped under the maker's hand"
        );
        assert_eq!(version(&page).await, first);
        page.see("#active-field .typed", "21").await;

        // Two more come before the maker gives the word: it is the newest that takes over.
        let third = dist.release();
        look(&page).await;
        waits(&page, &third).await;
        let fourth = dist.release();
        look(&page).await;
        waits(&page, &fourth).await;
        assert!(is_same_page(&page).await);
        page.go_to("#/yard").await;
        page.see("#notices", "A new version is ready").await;
        steps::press(&page, "Update now").await;
        page.wait_for(
            "the newest version",
            "document.querySelector('meta[name=build]')?.content === arguments[0]",
            vec![json!(fourth)],
        )
        .await;
        page.stands().await;
        page.go_to(&measuring).await;
        assert_eq!(steps::typed(&page, "Length").await, "2620");
        assert_eq!(steps::typed(&page, "Width near").await, "21");
        steps::keys(&page, "4").await;
        page.reads("#active-field .typed", "214").await;

        page.to_window(other).await;
        assert!(
            is_same_page(&page).await,
            "the second window was not loaded anew"
        );
        assert_eq!(version(&page).await, first);
        assert_eq!(steps::typed(&page, "Length").await, "19");
        steps::keys(&page, "00 next 205").await;
        steps::to_verdict(&page).await;
        steps::hold(&page).await;
        // It still runs the version it came with, and goes over when it is told to.
        page.reload().await;
        assert_eq!(version(&page).await, fourth);
        browser.close().await;
    });
}

#[test]
fn a_version_that_is_not_whole_never_takes_over() {
    run(async {
        let (profile, dist) = (Folder::new("next-mixed"), Dist::copy());
        let mut server = Server::of(dist.path());
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        page.go_to("#/yard").await;
        ready_offline(&page).await;
        browser_started(&page).await;
        let first = version(&page).await;

        let broken = dist.release_in_part();
        let script = "navigator.serviceWorker.getRegistration().then(async (reg) => {\
            const ended = new Promise((end) => reg.addEventListener('updatefound', () => {\
                const worker = reg.installing;\
                worker.addEventListener('statechange', () => end(worker.state));\
            }));\
            await reg.update().catch(() => {});\
            done(await ended);\
        })";
        assert_eq!(
            page.js_async(script, vec![]).await,
            "redundant",
            "{broken} is refused"
        );
        let waiting =
            "navigator.serviceWorker.getRegistration().then(r => done(r.waiting === null))";
        assert_eq!(page.js_async(waiting, vec![]).await, true);
        assert!(
            !page.text("#app").await.contains("new version"),
            "nothing is offered"
        );

        // What is in charge still opens, with the server gone as well as there.
        page.reload().await;
        assert_eq!(version(&page).await, first);
        server.stop();
        page.reload().await;
        assert_eq!(version(&page).await, first);
        steps::press(&page, "Start a visit").await;
        page.value(&steps::field("Yard")).await;
        page.go_to("#/yard").await;
        // The host is mended: the whole version is offered.
        dist.mend();
        server.start_again();
        look(&page).await;
        page.see("#notices", "A new version is ready").await;
        browser.close().await;
    });
}

//! A maker's day in the yard, in a browser of a phone's size, by touch: from the first visit to the
//! planks taken, with what the screen shows on the way.

use stillwood_tests::browser::{Browser, Device, Folder, HOPPLE, Page, Pile, Server, Spec, run};

async fn phone(profile: &Folder) -> (Server, Browser, Page) {
    let server = Server::start();
    let browser = Browser::start(Device::Phone, profile).await;
    let page = browser.page();
    (server, browser, page)
}

#[test]
fn the_first_plank_is_worked_out_as_by_hand() {
    run(async {
        let profile = Folder::new("yard");
        let (server, browser, page) = phone(&profile).await;
        page.open(server.address()).await;
        let coarse = page.js("return matchMedia('(pointer: coarse)').matches && innerWidth === 390", vec![]);
        assert_eq!(coarse.await, true, "a phone");
        page.new_visit(HOPPLE).await;
        page.set_part(Spec::PART).await;
        page.new_pile(Pile::MAPLE).await;

        let mark = page.begin_plank().await;
        page.keys("2620 next 214 next 205 next 193 next 52 next").await;
        page.press("end by end").await;
        page.key_into("WeightFirst", "10.3 next 9.4 next").await;
        page.keys("9 next 4 next 12 left next 4 next 12 / 300 next 15 / 300").await;
        page.see(".score-strip", "too close to call").await;
        let strip = page.text(".score-strip").await;
        assert!(strip.contains("slope of grain"), "{strip}");
        assert!(strip.contains("measure the grain on the"), "{strip}");
        assert_eq!(page.figure("Straight slab if cut first to 950 mm × 80 mm").await, "47.3 mm");
        assert_eq!(page.figure("Straight slab if flattened whole first").await, "31 mm");
        assert_eq!(page.figure("Slope of grain, both faces together").await, "1:15.6");
        assert_eq!(page.figure("Density as measured").await, "707 ± 22 kg/m³");
        assert_eq!(page.figure("Crook left in the part").await, "0.5 mm");
        assert!(page.figure("Weight").await.starts_with("19.7"), "the ends add up");
        assert_eq!(page.value("#f-Moisture").await, "10.5", "carried over from the pile");
        let said = page.take().await;
        assert!(said.starts_with(&format!("{mark} taken")), "{said}");
        browser.close().await;
    });
}

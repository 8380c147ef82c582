//! The workshop in the app: a plank from the yard set to rest, weighed and checked; a shelf of laminates
//! looked through with few touches; and plans at the pace of the workshop. By touch, on a phone.

use stillwood_core::plank::Field;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{PieceKind, child_marks};
use stillwood_core::season::Stage;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run};
use stillwood_tests::workshop::bought;
use stillwood_tests::yard::{A7, Phone};

/// Opens what was done on a day, types it, and saves it.
async fn done(page: &Page, name: &str, typed: &[(&str, &str)], day: &str) {
    page.clock(day).await;
    page.open_deed(name).await;
    for (css, text) in typed {
        page.fill(css, text).await;
    }
    page.holds("#deed #in-day", day).await;
    page.tap("#deed-save").await;
    page.gone("#deed").await;
    page.saved().await;
}

#[test]
fn a_plank_goes_from_the_yard_to_its_rest_and_is_checked() {
    run(async {
        let profile = Folder::new("workshop");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.clock("2026-01-04").await;
        page.set_up(server.address()).await;
        page.begin_plank().await;
        let mark = page.quick_plank("2620").await;
        page.home().await;
        page.press("Workshop: what is due").await;
        page.see("#waiting", "plank, taken since").await;
        page.tap("#waiting a").await;
        page.see("#sheet-mark", &mark).await;

        done(
            &page,
            "Put on a shelf",
            &[("#in-shelf", "loft 2")],
            "2026-01-05",
        )
        .await;
        assert_eq!(page.figure("Shelf", "loft").await, "loft 2");

        // What can't be read is told, and nothing is recorded.
        page.open_deed("Weigh").await;
        page.tap("#deed-save").await;
        page.see("#deed-fault", "Weight is still to be typed").await;
        page.fill("#in-weight", "19 stone").await;
        page.see("#in-weight-notes .error", "not a unit that fits here")
            .await;
        page.fill("#in-weight", "19,7 kg").await;
        page.see("#in-weight-notes .echo", "19.7 kg").await;
        page.fill("#in-step-of-the-scale", "20 g").await;
        page.tap("#deed-save").await;
        page.figure("Weight", "19,7 kg on 2026-01-05").await;

        page.clock("2026-01-06").await;
        page.open_deed("Machined flat").await;
        page.tap_named("#deed button", "An edge was made straight")
            .await;
        page.tap("#deed-save").await;
        page.gone("#deed").await;
        done(&page, "Set to rest", &[], "2026-01-06").await;
        page.figure("Now", "resting since 2026-01-06").await;
        page.figure("Ripe", "2026-07-06").await;
        page.figure("Movement", "two checks wanted").await;
        for day in ["2026-04-06", "2026-07-06"] {
            let straight = [
                ("#in-crook", "+0.1"),
                ("#in-bow", "-0.2"),
                ("#in-twist", "0"),
            ];
            done(&page, "Check movement", &straight, day).await;
        }
        page.figure("Movement", "keeps its shape, weight not known")
            .await;
        page.see("#checks", "2026-07-06").await;

        // The air of its room: the shelf is named for it.
        page.go_to("#/rests").await;
        page.press("Read a room").await;
        page.tap("#deed-save").await;
        page.see("#deed-fault", "Room is still to be typed").await;
        page.fill("#in-room", "loft").await;
        page.tap("#deed-save").await;
        page.see("#deed-fault", "Type the humidity").await;
        page.fill("#in-humidity-of-the-air", "45").await;
        page.tap("#deed-save").await;
        page.see("#rooms", "wood settles at 8.5 %").await;
        // A longer rest for pieces, and what that does to the piece.
        page.press("Change the terms for pieces").await;
        page.fill("#in-months-at-least", "8").await;
        page.tap("#deed-save").await;
        page.figure("At rest", "8 months and more").await;
        page.go_to("#/workshop").await;
        page.see("#shelves", "loft 2").await;
        page.see("#shelves .card", "2026-09-06").await;

        // Thrown out only with a reason, and brought back by one touch.
        page.tap("#shelves a").await;
        page.figure("Drying", "too few weighings").await;
        page.open_deed("Throw out").await;
        page.tap("#deed-save").await;
        page.see("#deed-fault", "Say why").await;
        page.tap_named("#deed button", "sprang at the saw").await;
        page.tap("#deed-save").await;
        page.figure("Now", "thrown out").await;
        page.gone("#doings").await;
        page.tap_named(".toast button", "Undo").await;
        page.figure("Now", "resting since").await;

        // A card to print for the shelf: the mark and the facts by themselves.
        let mark = page.text("#sheet-mark").await;
        page.tap("#as-card").await;
        page.see("#shelf-card .mark-big", &mark).await;
        page.see("#shelf-card", "resting since").await;
        page.gone("#history").await;
        let found = page.by_the_rules().await;
        assert!(found.is_empty(), "shelf card: {}", found.join("\n"));
        page.tap("#close-card").await;
        page.see("#history", "set to rest").await;

        // All of it is kept.
        page.reload().await;
        page.see("#history", "set to rest").await;
        browser.close().await;
    });
}

#[test]
fn forty_laminates_with_three_that_moved_cost_at_most_sixty_touches() {
    run(async {
        let mut phone = Phone::new("K7");
        let plank = bought(&mut phone, "A7");
        phone.set_day("2020-12-01");
        let marks: Vec<String> = (1..=40).map(|n| format!("A7-{n:02}")).collect();
        let laminates = phone.rip(plank, &marks, 2.0);
        for laminate in &laminates {
            phone.flatten(*laminate);
            phone.rest(*laminate, Stage::Laminates, "shelf 3");
        }
        assert_eq!(
            queries::stock(&State::project(&phone.log))
                .filter(|piece| piece.work.kind == PieceKind::Laminate)
                .count(),
            40
        );

        let (profile, files) = (Folder::new("shelf"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let path = files.put("shelf.json", phone.file());
        page.go_to("#/carry").await;
        page.choose_file("#import-file", &path).await;
        page.tap("#merge").await;
        page.see("#merged", "shelf.json").await;
        page.home().await;

        page.take_touches();
        page.press("Workshop: what is due").await;
        page.press("Check a shelf").await;
        page.see("#check-count", "0 of 40 checked").await;
        for (n, mark) in marks.iter().enumerate() {
            if n % 15 == 7 {
                page.tap_named(&format!("[data-mark='{mark}'] button"), "Moved…")
                    .await;
                page.wait_for(
                    "the cursor in the first field",
                    "document.activeElement?.id === 'in-crook'",
                    vec![],
                )
                .await;
                page.type_keys("+3.9").await;
                page.tap("#deed-save").await;
            } else {
                page.tap(&format!("[data-mark='{mark}'] .still")).await;
            }
        }
        page.see("#check-count", "40 of 40 checked").await;
        let touches = page.take_touches();
        assert!(touches <= 60, "{touches} touches");
        page.saved().await;
        let words = page.texts("#to-check .seen").await;
        let beyond = words.iter().filter(|word| word.contains("beyond"));
        assert_eq!(beyond.count(), 3, "{words:?}");

        // Each has an entry of its own, and all are kept.
        page.reload().await;
        page.see("#check-count", "40 of 40 checked").await;
        browser.close().await;
    });
}

/// Eight laminates of A7 on one shelf and three of D4 on another, all at rest, two of A7 found still; plank
/// B2 in the room, plank C1 still at the yard.
fn two_shelves() -> Phone {
    let mut phone = Phone::new("K7");
    for (mark, count, day, shelf) in [
        ("A7", 8, "2026-03-03", "shelf 3"),
        ("D4", 3, "2026-05-20", "shelf 1"),
    ] {
        phone.set_day(day);
        let plank = bought(&mut phone, mark);
        let laminates = phone.rip(plank, &child_marks(mark, PieceKind::Laminate, count), 16.0);
        for laminate in &laminates {
            phone.flatten(*laminate);
            phone.rest(*laminate, Stage::Laminates, shelf);
        }
        for visit in ["2026-06-03", "2026-08-03"] {
            phone.set_day(visit);
            for laminate in laminates.iter().take(2).filter(|_| mark == "A7") {
                let straight = [(Field::Crook, "0"), (Field::Bow, "0"), (Field::Twist, "0")];
                phone.check(*laminate, &straight);
            }
        }
        if mark == "A7" {
            let weighed_on = ["2026-03-03", "2026-04-03", "2026-06-03", "2026-08-03"];
            phone.weigh_in_steady_air_on(&weighed_on, &laminates[..2], 0.56);
        }
    }
    phone.set_day("2026-08-20");
    bought(&mut phone, "B2");
    let (_, pile) = phone.pile();
    phone.plank(pile, "C1", &A7);
    phone
}

#[test]
fn what_is_due_stands_by_day_or_by_shelf_and_lots_open_to_their_members() {
    run(async {
        let phone = two_shelves();
        let (profile, files) = (Folder::new("due"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.clock("2026-08-28").await;
        page.open(server.address()).await;
        let path = files.put("due.json", phone.file());
        page.go_to("#/carry").await;
        page.choose_file("#import-file", &path).await;
        page.tap("#merge").await;
        page.see("#merged", "due.json").await;
        page.home().await;
        page.press("Workshop: what is due").await;

        // By day, across the shelves.
        page.see("#shelves h2", "Due this week (8)").await;
        let by_day = [
            "Due this week (8)",
            "September 2026 (1)",
            "November 2026 (3)",
        ];
        assert_eq!(page.texts("#shelves h2").await, by_day);
        let lot = page.see(".lot", "8 laminates of A7").await;
        for words in [
            "2 steady, ripe within a week",
            "6 due within a week",
            "ripe on 2026-09-03",
            "shelf 3",
        ] {
            assert!(lot.contains(words), "{words}: {lot}");
        }
        // Three stand each by itself.
        assert_eq!(page.texts("#shelves a.card").await.len(), 1 + 3);
        page.see(
            "#shelves a.card",
            "B2 getting used to the room plank in the room since 2026-08-20",
        )
        .await;
        page.see("#shelves a.card", "may be cut from 2026-09-17")
            .await;

        // One touch, and it is kept.
        page.take_touches();
        page.press("By shelf").await;
        let by_shelf = ["floor (1)", "shelf 1 (3)", "shelf 3 (8)"];
        page.see("#shelves h2", "shelf 1 (3)").await;
        assert_eq!(page.take_touches(), 1);
        assert_eq!(page.texts("#shelves h2").await, by_shelf);
        page.tap(".lot > button").await;
        page.see(".members .card", "A7 8 due within a week").await;
        assert_eq!(page.texts(".members .card").await.len(), 8);
        page.saved().await;
        page.reload().await;
        page.see(".members .card", "A7 1 steady, ripe within a week")
            .await;
        assert_eq!(page.texts("#shelves h2").await, by_shelf);

        // Words find one of the lot; what is early is chosen.
        page.tap("#narrow summary").await;
        page.fill("#in-search--mark--shelf--wood", "a7 5").await;
        page.gone(".lot").await;
        assert_eq!(page.texts("#shelves h2").await, ["shelf 3 (1)"]);
        page.see("#shelves a.card", "A7 5").await;
        page.fill("#in-search--mark--shelf--wood", "").await;
        page.see(".lot", "8 laminates of A7").await;
        page.press("Steady, not yet ripe").await;
        page.gone(".lot").await;
        assert_eq!(page.texts("#shelves a.card").await.len(), 2);
        page.press("All").await;

        // The day comes: what was early is ready, the rest waits to be looked at.
        page.clock("2026-09-03").await;
        page.reload().await;
        page.press("By day").await;
        page.see("#shelves h2", "Ripe, but not ready (6)").await;
        let by_day = [
            "Ripe, but not ready (6)",
            "Ready (2)",
            "Later this month (1)",
            "November 2026 (3)",
        ];
        assert_eq!(page.texts("#shelves h2").await, by_day);

        // What is likely next stands first; all else is one touch away.
        page.tap_with("#shelves a.card", "A7 1").await;
        page.see("#rest-word", "ready").await;
        let next = ["Glue up", "Rings and grain", "Check movement"];
        assert_eq!(page.texts(".likely > *").await, next);
        let plain = page.texts("#doings button").await.len();
        page.press("Something else").await;
        page.see("#doings .chips", "Throw out").await;
        assert!(page.texts("#doings .chip").await.len() > plain);
        page.go_to("#/workshop").await;
        page.tap_with("#shelves a.card", "B2").await;
        page.figure("Now", "in the room since 2026-08-20").await;
        page.figure("May be cut from", "2026-09-17").await;
        browser.close().await;
    });
}

#[test]
fn a_plan_stands_at_the_least_and_at_the_makers_own_pace() {
    run(async {
        let profile = Folder::new("pace");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.clock("2026-11-25").await;
        page.open_example(server.address()).await;
        page.go_to("#/plan").await;
        page.figure("Pieces, until cut", "7 days").await;
        page.figure("Laminates, until glued", "21 days (21 to 406)")
            .await;
        page.figure("Blanks, until found still", "too few to say: 3 went on")
            .await;
        // How it was counted.
        page.tap_with("#own-pace button.figure", "21 days").await;
        let told = page.see("dialog.told", "18 were glued").await;
        assert!(told.contains("12 wait still"), "{told}");
        page.tap("#told-close").await;
        // Backward: a day for each way, the later for the least.
        page.set_day("#in-ready-by", "2028-09-01").await;
        let rows = ["#latest tr:nth-child(1)", "#latest tr:nth-child(2)"];
        page.see(rows[0], "2027-03-01 2027-02-02").await;
        page.see(rows[1], "2027-09-01 2027-08-09").await;
        page.tap_with("#latest button.figure", "2027-08-09").await;
        page.see("dialog.told", "less 6 months and 21 days as laminates")
            .await;
        page.tap("#told-close").await;
        // Forward: eight laminates that rest are a blank three weeks later than they could be.
        page.see("#earliest", "2027-09-12 2027-10-02").await;
        // On a day that the least just reaches, the pace is too late for planks.
        page.set_day("#in-ready-by", "2028-06-01").await;
        page.see("#enough", "2028-06-01").await;
        let own = page.see("#enough-at-pace", "At your pace").await;
        assert!(!own.contains("the same"), "{own}");
        // A day behind the shortest way is told to be so, on both.
        page.set_day("#in-ready-by", "2027-03-01").await;
        page.see("#latest", "too late").await;
        browser.close().await;
    });
}

//! German: the trade names of the woods of the table, by id. From memory: no native maker has read it. Where German
//! trade has no name of its own, it uses the one that stands here.

use crate::words::line::Line;
use stillwood_core::wood::{Species, find};

/// The id of a wood, and its name.
pub const WOODS: &[Line] = lines! {
    "maple-sugar" => "Zuckerahorn";
    "maple-black" => "Schwarzahorn";
    "maple-red" => "Rotahorn";
    "maple-bigleaf" => "Großblättriger Ahorn";
    "maple-silver" => "Silberahorn";
    "maple-european" => "Bergahorn";
    "walnut-black" => "Amerikanischer Nussbaum";
    "walnut-european" => "Europäischer Nussbaum";
    "walnut-claro" => "Claro-Nussbaum";
    "butternut" => "Butternuss";
    "cherry-black" => "Amerikanischer Kirschbaum";
    "cherry-european" => "Europäischer Kirschbaum";
    "ash-white" => "Weißesche";
    "ash-black" => "Schwarzesche";
    "ash-green" => "Grünesche";
    "ash-oregon" => "Oregon-Esche";
    "ash-european" => "Europäische Esche";
    "alder-red" => "Amerikanische Roterle";
    "basswood" => "Amerikanische Linde";
    "aspen-quaking" => "Amerikanische Espe";
    "beech-american" => "Amerikanische Buche";
    "beech-european" => "Rotbuche";
    "birch-yellow" => "Gelbbirke";
    "birch-sweet" => "Zuckerbirke";
    "birch-paper" => "Papierbirke";
    "locust-black" => "Robinie";
    "honeylocust" => "Gleditschie";
    "oak-white" => "Weißeiche";
    "oak-red" => "Roteiche";
    "sycamore-american" => "Amerikanische Platane";
    "yellow-poplar" => "Tulpenbaum";
    "sweetgum" => "Amberbaum";
    "hickory-shagbark" => "Hickory";
    "pecan" => "Pekan";
    "elm-american" => "Amerikanische Ulme";
    "hackberry" => "Zürgelbaum";
    "chestnut-american" => "Amerikanische Kastanie";
    "persimmon" => "Persimmon";
    "madrone" => "Madrone";
    "magnolia-southern" => "Magnolie";
    "catalpa" => "Trompetenbaum";
    "apple" => "Apfelbaum";
    "pear" => "Birnbaum";
    "hornbeam" => "Hainbuche";
    "spruce-sitka" => "Sitkafichte";
    "spruce-red" => "Amerikanische Rotfichte";
    "spruce-engelmann" => "Engelmannfichte";
    "spruce-european" => "Europäische Fichte";
    "fir-white" => "Koloradotanne";
    "redcedar-western" => "Western Red Cedar";
    "cedar-port-orford" => "Oregonzeder";
    "cedar-yellow" => "Nootkazypresse";
    "douglas-fir" => "Douglasie";
    "redwood" => "Redwood";
    "mahogany" => "Echtes Mahagoni";
    "mahogany-cuban" => "Kuba-Mahagoni";
    "mahogany-african" => "Khaya-Mahagoni";
    "meranti-dark-red" => "Dunkelrotes Meranti";
    "andiroba" => "Andiroba";
    "albarco" => "Albarco";
    "sapele" => "Sapeli";
    "sipo" => "Sipo";
    "okoume" => "Okoumé";
    "cedar-spanish" => "Cedro";
    "limba" => "Limba";
    "afrormosia" => "Afrormosia";
    "iroko" => "Iroko";
    "moabi" => "Moabi";
    "wenge" => "Wengé";
    "zebrano" => "Zebrano";
    "ovangkol" => "Ovangkol";
    "bubinga" => "Bubinga";
    "padauk" => "Afrikanisches Padouk";
    "azobe" => "Bongossi";
    "teak" => "Teak";
    "rosewood-indian" => "Ostindischer Palisander";
    "rosewood-brazilian" => "Rio-Palisander";
    "rosewood-honduran" => "Honduras-Palisander";
    "rosewood-madagascar" => "Madagaskar-Palisander";
    "cocobolo" => "Cocobolo";
    "blackwood-african" => "Grenadill";
    "tulipwood" => "Brasilianisches Rosenholz";
    "kingwood" => "Königsholz";
    "ebony-african" => "Afrikanisches Ebenholz";
    "ebony-macassar" => "Makassar-Ebenholz";
    "ebony-ceylon" => "Ceylon-Ebenholz";
    "pau-ferro" => "Santos-Palisander";
    "goncalo-alves" => "Tigerholz";
    "purpleheart" => "Amaranth";
    "jatoba" => "Jatoba";
    "macawood" => "Macacauba";
    "ipe" => "Ipé";
    "bloodwood" => "Satiné";
    "pernambuco" => "Fernambuk";
    "snakewood" => "Schlangenholz";
    "ziricote" => "Ziricote";
    "bocote" => "Bocote";
    "katalox" => "Katalox";
    "koa" => "Koa";
    "blackwood-australian" => "Australian Blackwood";
    "merbau" => "Merbau";
    "nyatoh" => "Nyatoh";
    "paulownia" => "Paulownia";
    "kauri" => "Kauri";
    "rubberwood" => "Hevea";
};

/// The table's own name of each wood, and its name.
pub fn by_own_name() -> impl Iterator<Item = Line> {
    let own = |id: &str| find(id).map(Species::name);
    WOODS
        .iter()
        .filter_map(move |(id, says)| Some((own(id)?, *says)))
}

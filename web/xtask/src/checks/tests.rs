//! A page with its rows, a page with its reason, and what is wrong with neither.

use super::pages::functions_in;
use super::tables::rows_of;
use super::*;

const HEAD: &str = "id,formula,inputs,expected,tolerance,source,read\n";

fn problems(text: &str, table: &str) -> Vec<String> {
    let functions = functions_in(text, "wood::density").unwrap();
    let values = rows_of(&format!("{HEAD}{table}")).unwrap();
    let (covered, _) = cover(functions, &values);
    covered.iter().filter_map(Covered::problem).collect()
}

#[test]
fn a_formula_has_rows_or_a_reason() {
    let page = "/// Mass over volume.\n///\n/// A\n/// definition.\npub fn density() {}\n";
    assert_eq!(problems(page, "D-1,density,,1,0,Some book,read\n").len(), 0);
    assert_eq!(
        problems(page, "D-1,density dry,,1,0,Some book,read\n").len(),
        0
    );
    assert_eq!(
        problems(page, "D-1,density_at,,1,0,Some book,read\n"),
        ["wood::density::density has no row and no reason for having none"]
    );
    let reason = page.replace("definition.", "definition. No published value: too plain.");
    assert_eq!(problems(&reason, "").len(), 0);
    assert_eq!(
        problems(&reason, "D-1,density,,1,0,Some book,read\n").len(),
        1
    );
}

#[test]
fn an_equation_has_an_origin() {
    let page = "impl Wood {\n/// Density: `r = m/V`.\npub fn density(&self) {}\n}\n";
    let row = "D-1,Wood::density,,1,0,Some book,read\n";
    assert_eq!(
        problems(page, row),
        ["wood::density::Wood::density states an equation and no origin"]
    );
    let derived = page.replace("`r = m/V`.", "`r = m/V`. Derived here: statics.");
    assert_eq!(problems(&derived, row).len(), 0);
}

#[test]
fn neither_examples_nor_private_functions_are_formulas() {
    let example = "/// The larger.\n///\n/// ```\n/// let a = 1; // Source: none\n/// ```\npub fn larger() {}\n";
    let private = "/// Derived here.\nfn f() {}\n/// Derived here.\npub(crate) fn g() {}\n";
    for text in [example, private] {
        let (covered, other) = cover(functions_in(text, "").unwrap(), &[]);
        assert!(covered.is_empty() && other.is_empty());
    }
    // A row makes a formula of what its page does not say.
    let values = rows_of(&format!("{HEAD}L-1,larger,,1,0,Some book,read\n")).unwrap();
    let (covered, other) = cover(functions_in(example, "").unwrap(), &values);
    assert_eq!((covered.len(), covered[0].read, other.len()), (1, 1, 0));
}

#[test]
fn a_row_says_what_whence_and_whether_it_was_read() {
    for row in [
        "D-1,,,1,0,Some book,read\n",
        "D-1,density,,1,0,,read\n",
        "D-1,density,,1,0,Some book,perhaps\n",
    ] {
        assert!(rows_of(&format!("{HEAD}{row}")).is_err(), "{row}");
    }
}

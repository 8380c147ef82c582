//! How many instructions a question takes: counted by valgrind, where it is installed. Unlike a time, the count knows
//! nothing of the processor's caches nor of what else the machine does, and is the same in every run.
//!
//! The bench starts itself anew under valgrind's `callgrind`, which counts nothing until it is told to; so a record is
//! made fast, and only the questions are counted. What is told to it goes through its own `vgdb`.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The word that tells the bench to count, followed by the folder for the counts, the shape, its size, and the
/// questions.
pub(crate) const COUNT: &str = "--count";

/// Where the counts are laid down.
const FOLDER: &str = env!("CARGO_TARGET_TMPDIR");

/// Whether there is a valgrind.
pub(crate) fn can_be_counted() -> bool {
    let answers = |tool: &str| {
        let mut asked = Command::new(tool);
        asked
            .arg("--help")
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        asked.status().is_ok_and(|ended| ended.success())
    };
    answers("valgrind") && answers("vgdb")
}

/// The instructions that questions of a shape take in a size, by the question; those are missing that could not be
/// counted.
pub(crate) fn count(shape: &str, size: usize, questions: &[&str]) -> BTreeMap<String, u64> {
    let folder = Path::new(FOLDER).join(format!("steps-{}", std::process::id()));
    fs::create_dir_all(&folder).expect("a folder for the counts");
    let bench = std::env::current_exe().expect("this bench lies somewhere");
    let mut counting = Command::new("valgrind");
    counting.args(["--tool=callgrind", "--instr-atstart=no", "--quiet"]);
    counting.arg(format!("--callgrind-out-file={}", dumps(&folder).display()));
    counting.arg(bench).arg(COUNT).arg(&folder);
    counting.arg(shape).arg(size.to_string()).args(questions);
    let said = counting.output().expect("valgrind");
    let said_wrong = String::from_utf8_lossy(&said.stderr);
    assert!(said.status.success(), "not counted: {said_wrong}");
    fs::remove_dir_all(&folder).expect("the counts are read");
    let line = |line: &str| {
        let (name, count) = line.rsplit_once('\t')?;
        Some((name.to_owned(), count.parse().ok()?))
    };
    let said = String::from_utf8_lossy(&said.stdout);
    said.lines().filter_map(line).collect()
}

fn dumps(folder: &Path) -> PathBuf {
    folder.join("dump")
}

/// Counts, inside of the bench that runs under valgrind.
pub(crate) struct Counter {
    folder: PathBuf,
    dumped: usize,
    /// What it takes to tell valgrind to begin and to end.
    for_nothing: u64,
}

impl Counter {
    pub(crate) fn new(folder: &Path) -> Self {
        let mut counter = Self {
            folder: folder.to_owned(),
            dumped: 0,
            for_nothing: 0,
        };
        let counted: Vec<u64> = (0..3).map(|_| counter.raw(|| ())).collect();
        counter.for_nothing = counted.into_iter().min().expect("some counts");
        counter
    }

    pub(crate) fn of(&mut self, run: impl FnOnce()) -> u64 {
        self.raw(run).saturating_sub(self.for_nothing)
    }

    fn raw(&mut self, run: impl FnOnce()) -> u64 {
        tell("instrumentation on");
        run();
        tell("instrumentation off");
        tell("dump");
        self.dumped += 1;
        let name = format!("{}.{}", dumps(&self.folder).display(), self.dumped);
        let dump = fs::read_to_string(&name).expect("valgrind laid a count down");
        let mut totals = dump
            .lines()
            .filter_map(|line| line.strip_prefix("totals: "));
        let total = totals.next().and_then(|total| total.trim().parse().ok());
        total.expect("a count of instructions")
    }
}

/// Tells the valgrind under which this runs.
fn tell(what: &str) {
    let mut vgdb = Command::new("vgdb");
    vgdb.arg(format!("--pid={}", std::process::id())).arg(what);
    vgdb.stdout(Stdio::null()).stderr(Stdio::null());
    assert!(vgdb.status().expect("vgdb").success(), "{what}");
}

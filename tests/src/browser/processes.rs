//! Which processes belong to which, and their end: by their own ids, never by a name.

use std::fs;
use std::process::Command;
use std::time::Duration;

/// All processes that descend from one.
pub(super) fn below(top: u32) -> Vec<u32> {
    let all = processes();
    let mut found = vec![top];
    let mut at = 0;
    while let Some(parent) = found.get(at).copied() {
        found.extend(
            all.iter()
                .filter(|(_, p)| *p == parent)
                .map(|(pid, _)| *pid),
        );
        at += 1;
    }
    found.remove(0);
    found
}

/// Kills them all at once, as when a battery dies.
pub(super) fn kill(pids: &[u32]) {
    if pids.is_empty() {
        return;
    }
    let pids: Vec<String> = pids.iter().map(u32::to_string).collect();
    let command = format!("kill -KILL {} 2>/dev/null", pids.join(" "));
    // Those that ended meanwhile make it fail; the rest is killed all the same.
    let _ = Command::new("sh").args(["-c", &command]).status();
}

/// Waits until none of them runs any more.
pub(super) fn wait_for_end(pids: &[u32]) {
    for _ in 0..200 {
        if !pids.iter().any(|pid| runs(*pid)) {
            break;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
}

/// Every process with its parent.
fn processes() -> Vec<(u32, u32)> {
    if let Ok(folder) = fs::read_dir("/proc") {
        let known: Vec<(u32, u32)> = folder
            .flatten()
            .filter_map(|entry| {
                let pid: u32 = entry.file_name().to_str()?.parse().ok()?;
                let stat = fs::read_to_string(entry.path().join("stat")).ok()?;
                // The name, in brackets, may hold anything; after it come the state and the parent.
                let parent = stat.rsplit_once(')')?.1.split_whitespace().nth(1)?;
                Some((pid, parent.parse().ok()?))
            })
            .collect();
        if !known.is_empty() {
            return known;
        }
    }
    let listed = Command::new("ps").args(["-A", "-o", "pid=,ppid="]).output();
    let text = listed.map(|listed| String::from_utf8_lossy(&listed.stdout).into_owned());
    text.unwrap_or_default()
        .lines()
        .filter_map(|line| {
            let mut numbers = line.split_whitespace().map(str::parse);
            Some((numbers.next()?.ok()?, numbers.next()?.ok()?))
        })
        .collect()
}

fn runs(pid: u32) -> bool {
    fs::read_to_string(format!("/proc/{pid}/stat")).is_ok_and(|stat| {
        // A zombie waits for its parent and does nothing more.
        stat.rsplit_once(')')
            .is_some_and(|(_, rest)| !rest.trim_start().starts_with('Z'))
    })
}

//! README, DEVELOPERS and `docs/` say what is true. `PLAGAL_BLESS=1` renews what is generated.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use plagal::devices::{Catalogue, Family};

const BEGIN: &str = "<!-- devices -->\n";
const END: &str = "<!-- end of devices -->";

fn text(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).expect("it is there")
}

fn plagal(arguments: &[&str]) -> Output {
    let home = std::env::temp_dir().join("plagal-documents");
    Command::new(env!("CARGO_BIN_EXE_plagal"))
        .args(arguments)
        .arg("--home")
        .arg(&home)
        .output()
        .expect("the program runs")
}

/// The catalogue as a table.
fn device_table() -> String {
    let catalogue = Catalogue::built_in();
    let mut table = "| id | name | family | modes |\n|---|---|---|---|\n".to_owned();
    for family in Family::ALL {
        for device in catalogue
            .devices()
            .iter()
            .filter(|device| device.family == family)
        {
            let modes: Vec<&str> = device.modes.iter().map(|mode| mode.name()).collect();
            let modes = modes.join(", ");
            writeln!(
                table,
                "| `{}` | {} | {family} | {modes} |",
                device.id,
                device.name()
            )
            .expect("text can be written to");
        }
    }
    table
}

#[test]
fn the_list_of_devices_is_the_catalogue() {
    let document = text("docs/devices.md");
    let (before, rest) = document.split_once(BEGIN).expect("the list begins");
    let (listed, after) = rest.split_once(END).expect("the list ends");
    if std::env::var_os("PLAGAL_BLESS").is_some() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/devices.md");
        fs::write(
            path,
            format!("{before}{BEGIN}{}{END}{after}", device_table()),
        )
        .expect("it can be written");
        return;
    }
    assert_eq!(listed, device_table(), "renew it with PLAGAL_BLESS=1");
}

#[test]
fn every_floor_is_on_the_map() {
    let developers = text("DEVELOPERS.md");
    for entry in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("src")).expect("src") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            let floor = path
                .file_name()
                .and_then(|name| name.to_str())
                .expect("a name");
            assert!(
                developers.contains(&format!("| `{floor}` |")),
                "`{floor}` is not on the map"
            );
        }
    }
}

#[test]
fn what_developers_read_first_is_short_and_its_links_lead_somewhere() {
    let developers = text("DEVELOPERS.md");
    assert!(developers.len() <= 10_000, "{} bytes", developers.len());
    for name in ["README.md", "DEVELOPERS.md", "CHANGELOG.md"] {
        for link in text(name).split("](").skip(1) {
            let target = link.split(')').next().unwrap_or_default();
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(target);
            assert!(path.exists(), "{name} links to {target}");
        }
    }
}

/// What stands between fences that begin with ```` ```language ````.
fn fenced(text: &str, language: &str) -> Vec<String> {
    let opening = format!("```{language}\n");
    let blocks = text.split(&opening).skip(1);
    blocks
        .map(|block| block.split("```").next().unwrap_or_default().to_owned())
        .collect()
}

#[test]
fn the_exercise_in_the_readme_is_sound() {
    let examples = fenced(&text("README.md"), "json");
    assert_eq!(examples.len(), 1);
    let file = std::env::temp_dir().join(format!("plagal-readme-{}.json", std::process::id()));
    fs::write(&file, &examples[0]).expect("a file can be written");
    let name = file.display().to_string();
    for arguments in [
        vec!["check", &name],
        vec!["question", &name, "--count", "5"],
    ] {
        let output = plagal(&arguments);
        assert!(
            output.status.success(),
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
    }
    fs::remove_file(file).expect("it can be removed");
}

#[test]
fn the_commands_of_the_readme_exist() {
    let readme = text("README.md");
    let help = String::from_utf8(plagal(&["--help"]).stdout).expect("help is text");
    let mut checked = 0;
    for quoted in readme
        .split('`')
        .skip(1)
        .step_by(2)
        .filter_map(|q| q.strip_prefix("plagal "))
    {
        let Some(command) = quoted.split_whitespace().next() else {
            continue;
        };
        if command.starts_with(|c: char| c.is_ascii_lowercase()) {
            assert!(
                help.contains(&format!("\n  {command} ")),
                "`plagal {command}` is no command"
            );
            checked += 1;
        }
    }
    assert!(checked >= 12, "only {checked} commands found");
    let line = "IVadd6 | ivadd6 | Iadd6 | V7/ii | V7/V | V7 | I %";
    assert!(readme.contains(&format!("plagal spell \"{line}\" --key G")));
    let spelled = String::from_utf8(plagal(&["spell", line, "--key", "G"]).stdout).expect("text");
    for symbol in ["C6", "Cm6", "G6", "E7", "A7", "D7"] {
        assert!(spelled.contains(symbol), "{symbol} in\n{spelled}");
    }
}

#[test]
fn the_plain_drill_of_the_readme_runs() {
    assert!(text("README.md").contains("cargo run --release -- drill first-cadences --plain"));
    let journal = std::env::temp_dir().join(format!("plagal-readme-{}.jsonl", std::process::id()));
    let journal = journal.display().to_string();
    let arguments = [
        "drill",
        "first-cadences",
        "--plain",
        "--audio",
        "off",
        "--journal",
        &journal,
    ];
    let output = plagal(&arguments);
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    assert!(String::from_utf8_lossy(&output.stdout).contains("First cadences"));
}

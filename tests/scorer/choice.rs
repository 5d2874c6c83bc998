//! What is asked next, and the reason that is given.

use plagal::devices::DeviceId;
use plagal::journal::{Difficulty, Entry, KeySetting, SlotAnswer};
use plagal::scorer::{Reason, Scorer, Wishes, Word};

const MINUTE: u64 = 60_000;

fn id(text: &str) -> DeviceId {
    text.parse().expect("a device id")
}

fn pool() -> Vec<DeviceId> {
    [
        "minor-four",
        "backdoor-dominant",
        "flat-six",
        "dominant-of-two",
        "dominant-of-five",
    ]
    .map(id)
    .to_vec()
}

fn scorer() -> Scorer {
    let families = ["mixture", "mixture", "mixture", "applied", "applied"];
    Scorer::new(pool().into_iter().zip(families))
}

fn answer(time: u64, device: &DeviceId, credit: f64, heard_as: Option<&str>) -> Entry {
    Entry {
        version: 1,
        id: format!("s-{time}"),
        time,
        learner: "ada".into(),
        session: "s".into(),
        exercise: "borrowed-colours".into(),
        seed: 7,
        index: 0,
        kind: "name-the-chord".into(),
        key: "G".into(),
        line: "IV iv I".into(),
        tempo: 96.0,
        sound: "upright".into(),
        texture: "held".into(),
        key_setting: KeySetting::Cadence,
        answers: 9,
        difficulty: Difficulty::default(),
        thinking: 900,
        replays: 0,
        explained: 0,
        slots: vec![SlotAnswer {
            slot: 1,
            devices: vec![device.clone()],
            truth: "iv".into(),
            function: "borrowed subdominant".into(),
            quality: "minor".into(),
            degree: "4".into(),
            bass: "4".into(),
            answer: "IV".into(),
            mark: if credit >= 1.0 { "right" } else { "wrong" }.into(),
            credit,
            heard_as: heard_as.map(id),
            offers: Vec::new(),
        }],
    }
}

/// Answers what the scorer asks; `credit` says how well.
fn drill(
    scorer: &mut Scorer,
    questions: u64,
    credit: impl Fn(&DeviceId, u64) -> f64,
) -> Vec<DeviceId> {
    (0..questions)
        .map(|turn| {
            let now = turn * MINUTE;
            let choice = scorer
                .next(&pool(), &Wishes::default(), now, turn)
                .expect("something may be asked");
            scorer.fold(&answer(
                now,
                &choice.device,
                credit(&choice.device, turn),
                None,
            ));
            choice.device
        })
        .collect()
}

#[test]
fn refolding_gives_the_same_scorer_bit_for_bit() {
    let mut as_we_go = scorer();
    let mut entries = Vec::new();
    for turn in 0..200 {
        let now = turn * 7 * MINUTE;
        let choice = as_we_go
            .next(&pool(), &Wishes::default(), now, turn)
            .expect("something may be asked");
        let credit = [1.0, 0.0, 0.5, 1.0][(turn % 4) as usize];
        let heard = (credit < 1.0).then_some("flat-six");
        entries.push(answer(now, &choice.device, credit, heard));
        as_we_go.fold(&entries[entries.len() - 1]);
        let _ = as_we_go.standings(now);
    }
    let mut afresh = scorer();
    for entry in &entries {
        afresh.fold(entry);
    }
    assert_eq!(as_we_go, afresh);
    assert_eq!(as_we_go.standings(1 << 40), afresh.standings(1 << 40));
}

#[test]
fn what_is_not_heard_is_asked_more_and_nothing_is_forgotten() {
    let weak = id("flat-six");
    let asked = drill(&mut scorer(), 300, |device, _| f64::from(*device != weak));
    let times = |device: &DeviceId| asked.iter().filter(|one| *one == device).count();
    for device in pool() {
        if device != weak {
            assert!(times(&weak) > 2 * times(&device));
            assert!(times(&device) > 15);
        }
    }
}

#[test]
fn the_pinned_is_asked_and_the_excluded_is_not() {
    let mut scorer = scorer();
    drill(&mut scorer, 200, |_, _| 1.0);
    let wishes = Wishes {
        pinned: vec![id("minor-four")],
        excluded: vec![id("flat-six")],
        ..Wishes::default()
    };
    let mut pinned = 0;
    for turn in 200..300 {
        let choice = scorer
            .next(&pool(), &wishes, turn * MINUTE, turn)
            .expect("something may be asked");
        assert_ne!(choice.device, id("flat-six"));
        pinned += usize::from(choice.device == id("minor-four"));
        scorer.fold(&answer(turn * MINUTE, &choice.device, 1.0, None));
    }
    assert!(pinned >= 40, "{pinned} of 100");
}

#[test]
fn the_floor_is_a_part_of_an_even_share() {
    let weak = id("flat-six");
    let even = 200.0 / pool().len() as f64;
    for floor in [0.0, 0.5, 1.0] {
        let mut scorer = scorer();
        let wishes = Wishes {
            floor,
            ..Wishes::default()
        };
        let mut asked = Vec::new();
        for turn in 0..400 {
            let now = turn * MINUTE;
            let choice = scorer.next(&pool(), &wishes, now, turn);
            let choice = choice.expect("something may be asked");
            let credit = f64::from(u8::from(choice.device != weak));
            scorer.fold(&answer(now, &choice.device, credit, None));
            assert!(choice.share >= floor / pool().len() as f64 - 1e-9);
            asked.push(choice.device);
        }
        let times = |device: &DeviceId| {
            let late = asked[200..].iter().filter(|one| *one == device);
            late.count() as f64
        };
        let least = pool().iter().map(times).fold(f64::INFINITY, f64::min);
        assert!(least >= 0.9 * floor * even, "{least} of {even} at {floor}");
        let expected = if floor < 1.0 { 1.3 * even } else { 0.9 * even };
        assert!(times(&weak) > expected, "{} at {floor}", times(&weak));
    }
}

#[test]
fn weak_spots_get_more_than_an_even_share_while_they_are_weak() {
    // Forty devices in families of five; one in four is named rightly in three of ten
    // questions, the others in eight.
    let devices: Vec<DeviceId> = (0..40).map(|n| id(&format!("device-{n}"))).collect();
    let families = (0..40).map(|n| format!("family-{}", n / 5));
    let mut scorer = Scorer::new(devices.iter().cloned().zip(families));
    let is_weak = |device: &DeviceId| {
        let place = devices.iter().position(|one| one == device);
        place.is_some_and(|place| place % 4 == 0)
    };
    let mut weak = 0;
    for turn in 0..600 {
        let now = turn * MINUTE;
        let choice = scorer.next(&devices, &Wishes::default(), now, turn);
        let device = choice.expect("something may be asked").device;
        let right = (turn * 7) % 10 < if is_weak(&device) { 3 } else { 8 };
        weak += u32::from(turn >= 300 && is_weak(&device));
        scorer.fold(&answer(now, &device, f64::from(u8::from(right)), None));
    }
    println!("{weak} of 300 questions to the weakest quarter");
    assert!(weak >= 90, "{weak} of 300; an even share is 75");
}

#[test]
fn nothing_is_chosen_from_nothing() {
    let everything = Wishes {
        excluded: pool(),
        ..Wishes::default()
    };
    assert_eq!(scorer().next(&pool(), &everything, 0, 0), None);
    assert_eq!(
        scorer().next(&[id("unheard-of")], &Wishes::default(), 0, 0),
        None
    );
}

#[test]
fn a_single_device_may_come_again_and_again() {
    let only = [id("minor-four")];
    let mut scorer = scorer();
    for turn in 0..20 {
        let choice = scorer
            .next(&only, &Wishes::default(), turn, turn)
            .expect("the only one");
        assert_eq!(choice.device, only[0]);
        scorer.fold(&answer(turn, &choice.device, 1.0, None));
    }
}

#[test]
fn a_frequent_confusion_is_named_and_is_a_reason() {
    let mut scorer = scorer();
    drill(&mut scorer, 30, |_, _| 1.0);
    let device = id("dominant-of-two");
    for turn in 0..4 {
        scorer.fold(&answer(
            60 * MINUTE + turn,
            &device,
            0.0,
            Some("dominant-of-five"),
        ));
    }
    assert_eq!(
        scorer.confusions(),
        [],
        "four times are not enough to name it"
    );
    for turn in 4..9 {
        scorer.fold(&answer(
            60 * MINUTE + turn,
            &device,
            0.0,
            Some("dominant-of-five"),
        ));
    }
    let named = scorer.confusions();
    assert_eq!(named.len(), 1);
    assert_eq!(
        (named[0].device.as_str(), named[0].times),
        ("dominant-of-two", 9)
    );
    for other in [
        "minor-four",
        "flat-six",
        "backdoor-dominant",
        "minor-four",
        "flat-six",
    ] {
        scorer.fold(&answer(70 * MINUTE, &id(other), 1.0, None));
    }
    let choice = scorer
        .next(&[device], &Wishes::default(), 71 * MINUTE, 1)
        .expect("the only one");
    let expected = Reason::HeardAs {
        other: id("dominant-of-five"),
        times: 9,
    };
    assert_eq!(choice.reason, expected);
    assert_eq!(
        choice.reason.to_string(),
        "heard as dominant-of-five 9 times"
    );
}

#[test]
fn an_answer_after_an_explanation_says_less_and_a_given_one_nothing() {
    let device = id("minor-four");
    let estimate = |explained: u32| {
        let mut scorer = scorer();
        for turn in 0..20 {
            let mut entry = answer(turn, &device, f64::from(u8::from(turn > 10)), None);
            entry.explained = if turn == 19 { explained } else { 0 };
            scorer.fold(&entry);
        }
        scorer.standings(20)[0].estimate
    };
    let plain = estimate(0);
    assert!(estimate(3) < plain, "{} {plain}", estimate(3));
    assert!(estimate(1) < estimate(3));
    let given_away = |credit: f64| {
        let mut scorer = scorer();
        let mut entry = answer(0, &device, credit, None);
        entry.explained = 1;
        scorer.fold(&entry);
        scorer.standings(0)[0].estimate
    };
    assert!((given_away(1.0) - given_away(0.0)).abs() < 1e-9);
}

#[test]
fn words_wait_for_enough_answers() {
    let mut scorer = scorer();
    let device = id("minor-four");
    for turn in 0..30 {
        scorer.fold(&answer(turn, &device, 0.0, None));
        let standing = &scorer.standings(turn)[0];
        if turn < 7 {
            assert_eq!(standing.word, Word::New);
        }
    }
    assert_eq!(scorer.standings(30)[0].word, Word::Weak);
    for turn in 30..130 {
        scorer.fold(&answer(turn, &device, 1.0, None));
    }
    assert_eq!(scorer.standings(130)[0].word, Word::Secure);
    let later = 130 + 31 * 24 * 60 * MINUTE;
    assert_eq!(scorer.standings(later)[0].word, Word::Resting);
}

/// The part that the first of two devices is due in exemplars that are all this hard; it
/// was heard five times in six, the other one every other time.
fn part_of_the_better(hardness: f64) -> f64 {
    let (better, worse) = (id("minor-four"), id("flat-six"));
    let mut scorer = scorer();
    for turn in 0..60 {
        let (device, wrong_in) = match turn % 2 {
            0 => (&better, 6),
            _ => (&worse, 2),
        };
        let credit = f64::from(u8::from((turn / 2) % wrong_in > 0));
        scorer.fold(&answer(turn * MINUTE, device, credit, None));
    }
    let hard = Difficulty {
        inversion: hardness,
        texture: hardness,
        tempo: hardness,
        similarity: hardness,
    };
    let mut wishes = Wishes::default();
    wishes.reach.easiest = hard;
    wishes.reach.hardest = hard;
    let pool = [better.clone(), worse];
    let choice = scorer.next(&pool, &wishes, 60 * MINUTE, 0);
    let choice = choice.expect("two may be asked");
    if choice.device == better {
        choice.share
    } else {
        1.0 - choice.share
    }
}

#[test]
fn what_is_heard_in_easy_exemplars_is_due_again_in_hard_ones() {
    let (easy, hard) = (part_of_the_better(0.0), part_of_the_better(1.0));
    assert!(
        easy + 0.03 < hard,
        "{easy} in easy ones, {hard} in hard ones"
    );
}

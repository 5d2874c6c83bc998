//! What steered exemplars do to simulated learners.

use plagal::trial::{Plan, Policy, World, simulate};

/// The mean true chance of a right answer in the drill, without steering and with.
fn successes(world: World) -> (f64, f64) {
    let plan = Plan {
        learners: 24,
        seed: 31,
        patience: 600,
        worlds: vec![world],
        policies: vec![Policy::Unsteered, Policy::Scorer],
        ..Plan::default()
    };
    let results = simulate(&plan, |_| ());
    let cells = &results[0].cells;
    (cells[0].success, cells[1].success)
}

#[test]
fn steering_brings_success_nearer_to_where_it_is_wanted() {
    for world in [World::PeakLow, World::PeakHigh, World::Flat] {
        let (by_lot, steered) = successes(world);
        println!("{}: {by_lot:.3} by lot, {steered:.3} steered", world.id());
        assert!(
            by_lot + 0.01 < steered && steered < 0.85,
            "{by_lot} {steered}"
        );
    }
}

#[test]
fn steering_teaches_more_where_success_does() {
    let plan = Plan {
        learners: 24,
        seed: 32,
        patience: 600,
        worlds: vec![World::PeakHigh],
        policies: vec![Policy::Unsteered, Policy::Scorer],
        ..Plan::default()
    };
    let results = simulate(&plan, |_| ());
    let delayed: Vec<f64> = results[0]
        .cells
        .iter()
        .map(|cell| cell.delayed.mean)
        .collect();
    assert!(delayed[0] + 0.005 < delayed[1], "{delayed:?}");
}

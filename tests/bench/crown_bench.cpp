#include <benchmark/benchmark.h>

#include "disc/disc_rounds.h"
#include "sample_stages.h"

/// The stages that only a crown has.
namespace ridgetally::bench {
namespace {

void crown_outline(benchmark::State& state) {
    const CrownStages& stages = crown_stages();
    for ([[maybe_unused]] auto _ : state) {
        auto outline = must(trace_disc(stages.photo, stages.region, stages.photo_from_plane, stages.options));
        benchmark::DoNotOptimize(outline);
    }
}
BENCHMARK(crown_outline)->Unit(benchmark::kMillisecond);

void crown_rounds(benchmark::State& state) {
    const CrownStages& stages = crown_stages();
    const Recogniser* recogniser = knowledge().recogniser.get();
    if (recogniser == nullptr) throw std::runtime_error("the recogniser's weights are missing");
    for ([[maybe_unused]] auto _ : state) {
        auto rounds = must(read_rounds(*recogniser, stages.photo.pyramid, stages.outline));
        benchmark::DoNotOptimize(rounds);
    }
}
BENCHMARK(crown_rounds)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ridgetally::bench

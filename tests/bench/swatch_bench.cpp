#include <benchmark/benchmark.h>

#include "pipeline/propose.h"
#include "recogniser/recogniser.h"
#include "rectify/rectify.h"
#include "sample_stages.h"
#include "scale/read_ruler.h"

/// The stages of a swatch in their order.
namespace ridgetally::bench {
namespace {

void ruler(benchmark::State& state) {
    const Photo& photo = swatch_stages().photo;
    for ([[maybe_unused]] auto _ : state) {
        auto reference = must(read_ruler(photo));
        benchmark::DoNotOptimize(reference);
    }
}
BENCHMARK(ruler)->Unit(benchmark::kMillisecond);

void rectification(benchmark::State& state) {
    const SwatchStages& stages = swatch_stages();
    for ([[maybe_unused]] auto _ : state) {
        auto plane =
            must(rectify(stages.plane.reference, stages.photo.grey.size(), focal_length_px(stages.photo)));
        benchmark::DoNotOptimize(plane);
    }
}
BENCHMARK(rectification)->Unit(benchmark::kMillisecond);

void fabric_mask(benchmark::State& state) {
    const SwatchStages& stages = swatch_stages();
    FindFabricOptions options;
    options.keep_out_px.push_back(stages.plane.reference.outline_px);
    for ([[maybe_unused]] auto _ : state) {
        auto region = must(find_fabric(stages.photo, options));
        benchmark::DoNotOptimize(region);
    }
}
BENCHMARK(fabric_mask)->Unit(benchmark::kMillisecond);

void lattice_search(benchmark::State& state) {
    const SwatchStages& stages = swatch_stages();
    for ([[maybe_unused]] auto _ : state) {
        auto search = must(search_lattice(stages.source, stages.options));
        benchmark::DoNotOptimize(search);
    }
}
BENCHMARK(lattice_search)->Unit(benchmark::kMillisecond);

void lattice_settled(benchmark::State& state) {
    const SwatchStages& stages = swatch_stages();
    for ([[maybe_unused]] auto _ : state) {
        auto lattice = must(settle_lattice(stages.source, stages.search, {}));
        benchmark::DoNotOptimize(lattice);
    }
}
BENCHMARK(lattice_settled)->Unit(benchmark::kMillisecond);

void recogniser_loading(benchmark::State& state) {
    const auto folder = std::string(RIDGETALLY_SOURCE_DIR) + "/models/recogniser";
    for ([[maybe_unused]] auto _ : state) {
        auto recogniser = must(load_recogniser(folder));
        benchmark::DoNotOptimize(recogniser);
    }
}
BENCHMARK(recogniser_loading)->Unit(benchmark::kMillisecond);

/// All scales and the last tile, as where no stitch is told.
void recognition(benchmark::State& state) {
    LatticeSearch search = swatch_stages().search;
    search.options.source = StitchSource::recognised;
    Trace trace;
    for ([[maybe_unused]] auto _ : state) {
        auto proposals = must(propose(knowledge(), search, Ask::where_unsure, trace));
        benchmark::DoNotOptimize(proposals);
    }
}
BENCHMARK(recognition)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ridgetally::bench

#include <benchmark/benchmark.h>

#include "report/document.h"
#include "report/picture.h"
#include "sample_stages.h"

/// From the result to what the maker gets.
namespace ridgetally::bench {
namespace {

void json(benchmark::State& state) {
    const SwatchResult& result = swatch_stages().result;
    for ([[maybe_unused]] auto _ : state) {
        auto text = json_text(swatch_document(result));
        benchmark::DoNotOptimize(text);
    }
}
BENCHMARK(json)->Unit(benchmark::kMillisecond);

void annotation(benchmark::State& state) {
    const SwatchStages& stages = swatch_stages();
    for ([[maybe_unused]] auto _ : state) {
        auto picture = annotated_picture(stages.photo.colour.bgr, stages.result, knowledge().catalog);
        benchmark::DoNotOptimize(picture);
    }
}
BENCHMARK(annotation)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ridgetally::bench

#include <benchmark/benchmark.h>

#include "image/pyramid.h"
#include "sample_stages.h"
#include "unit/image/heif_files.h"
#include "unit/image/jpeg_files.h"
#include "unit/image/png_files.h"

/// From the file's bytes to the photo in memory: one picture of 0.8 megapixels in each format.
namespace ridgetally::bench {
namespace {

cv::Mat picture() { return swatch_stages().photo.colour.bgr(cv::Rect(0, 0, 512, 384)); }

void decode(benchmark::State& state, const files::Bytes& file) {
    for ([[maybe_unused]] auto _ : state) {
        auto photo = must(decode_photo(file, "", files::any_size()));
        benchmark::DoNotOptimize(photo);
    }
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(file.size()));
}

void decode_jpeg(benchmark::State& state) { decode(state, files::jpeg_file(picture(), {})); }
BENCHMARK(decode_jpeg)->Unit(benchmark::kMillisecond);

void decode_png(benchmark::State& state) { decode(state, files::png_file(picture())); }
BENCHMARK(decode_png)->Unit(benchmark::kMillisecond);

void decode_heic(benchmark::State& state) {
    decode(state, files::heic_file(picture(), heif_orientation_normal, {}));
}
BENCHMARK(decode_heic)->Unit(benchmark::kMillisecond);

void pyramid(benchmark::State& state) {
    const cv::Mat& grey = swatch_stages().photo.grey;
    for ([[maybe_unused]] auto _ : state) {
        auto levels = grey_pyramid(grey);
        benchmark::DoNotOptimize(levels);
    }
}
BENCHMARK(pyramid)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ridgetally::bench

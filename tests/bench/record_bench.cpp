// How long looking at a large record takes.
//
//     bench_record RECORD_FILE
//
// Makes the file, where there is none, with 10,000 invented yarns and 100,000 measurements, each with a
// report as long as a real one; then times list, find (sc alone, and any stitch: "find*") and show, each from
// opening the file to the text that is printed, 20 times.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/random.h"
#include "report/yarn_text.h"
#include "yarns/gauges.h"
#include "yarns/import.h"
#include "yarns/search.h"
#include "yarns/stock.h"

namespace ridgetally {
namespace {

constexpr int yarn_count = 10000;
constexpr int measurements_a_yarn = 10;
constexpr int repeats = 20;
constexpr std::size_t report_bytes =
    3500;  // of `ridgetally swatch --json samples/brimful-moss.jpg`, in compact form

template <typename T>
T must(const Outcome<T>& outcome) {
    if (!outcome) throw std::runtime_error(outcome.refusal().message);
    return *outcome;
}

/// A swatch of a yarn that gives `gauge` stitches on a 5 mm hook; stitch width grows with the root of the
/// hook.
Measurement invented_measurement(double gauge, Random& random) {
    Measurement m;
    m.taken = "2026-11-01";
    m.hook_mm = 0.5 * random.whole(8, 12);
    m.stitch = random.whole(0, 2) == 0 ? StitchFamily::hdc : StitchFamily::sc;
    m.worked = random.whole(0, 1) == 0 ? Worked::flat : Worked::round;
    m.state = random.whole(0, 1) == 0 ? FabricState::relaxed : FabricState::washed;
    m.stitches_per_10cm = gauge * std::sqrt(5.0 / *m.hook_mm) * random.normal(1.0, 0.02);
    m.stitches_std = 0.015 * *m.stitches_per_10cm;
    m.rows_per_10cm = 1.1 * *m.stitches_per_10cm;
    m.rows_std = 0.015 * *m.rows_per_10cm;
    m.report = "{\"filling\":\"" + std::string(report_bytes, 'x') + "\"}";
    return m;
}

void fill(const Record& record) {
    Random random(1);
    std::vector<IncomingYarn> yarns;
    for (int i = 0; i < yarn_count; ++i) {
        Yarn yarn;
        yarn.name = "Fennelwick " + std::to_string(i);
        yarn.weight_category = random.whole(0, 7);
        yarn.ball_g = 50.0;
        yarn.ball_m = 120.0;
        yarn.balls = 0.25 * random.whole(0, 40);
        yarn.added = "2026-11-01";
        yarns.push_back({yarn.name, [yarn](const auto&) { return Outcome<Yarn>(yarn); }, {}});
        const double gauge = random.uniform(6.0, 30.0);
        for (int j = 0; j < measurements_a_yarn; ++j)
            yarns.back().measurements.push_back({0, invented_measurement(gauge, random)});
    }
    must(import_yarns(record, yarns, Existing::refused));
}

void time_of(const char* what, const std::function<std::size_t()>& work) {
    std::vector<double> ms;
    const std::clock_t cpu_start = std::clock();
    std::size_t size = 0;
    for (int i = 0; i < repeats; ++i) {
        const auto start = std::chrono::steady_clock::now();
        size = work();
        ms.push_back(
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    }
    const double cpu_ms = 1000.0 * static_cast<double>(std::clock() - cpu_start) / CLOCKS_PER_SEC / repeats;
    std::sort(ms.begin(), ms.end());
    std::printf("%-6s median %6.1f ms   largest %6.1f ms   processor %6.1f ms   %zu bytes of text\n", what,
                ms[ms.size() / 2], ms.back(), cpu_ms, size);
}

void run(const std::string& file) {
    if (!std::filesystem::exists(file)) fill(Record::open(file, Access::change).value());
    const Catalog catalog = load_catalog(models_folder()).value();
    std::printf("%s: %ju MB\n", file.c_str(),
                static_cast<std::uintmax_t>(std::filesystem::file_size(file) / 1000000));
    time_of("list", [&] {
        const Record record = Record::open(file, Access::look).value();
        return stock_text(must(list_yarns(record)), catalog).size();
    });
    time_of("find", [&] {
        const Record record = Record::open(file, Access::look).value();
        GaugeWanted wanted;
        wanted.stitches_per_10cm = 14.0;
        wanted.rows_per_10cm = 16.0;
        wanted.stitch = StitchFamily::sc;
        return matches_text(must(find_gauge(record, wanted)), wanted, catalog, {}).size();
    });
    time_of("find*", [&] {
        const Record record = Record::open(file, Access::look).value();
        GaugeWanted wanted;
        wanted.stitches_per_10cm = 14.0;
        wanted.rows_per_10cm = 16.0;
        return matches_text(must(find_gauge(record, wanted)), wanted, catalog, {}).size();
    });
    time_of("show", [&] {
        const Record record = Record::open(file, Access::look).value();
        const std::string name = "Fennelwick 7777";
        return yarn_text(
                   {must(find_yarn(record, name)).yarn, must(measurements_of(record, name, Reports::left))},
                   catalog, {})
            .size();
    });
}

}  // namespace
}  // namespace ridgetally

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: bench_record RECORD_FILE\n");
        return 64;
    }
    try {
        ridgetally::run(argv[1]);
    } catch (const std::exception& fault) {
        std::fprintf(stderr, "bench_record: %s\n", fault.what());
        return 70;
    }
    return 0;
}

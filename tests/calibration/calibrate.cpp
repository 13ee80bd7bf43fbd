// Measures seeded renders and appends one line a statement to a CSV file; seeds that stand in it are left
// out, so a run that was broken off goes on. report.py makes the report of it.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <atomic>
#include <fstream>
#include <iostream>
#include <mutex>
#include <set>
#include <sstream>
#include <thread>

#include "calibration/trials.h"

namespace rc = ridgetally::calibration;

namespace {

constexpr const char* header =
    "kind,seed,stitch,tilt_deg,lift_mm,blur_px,px_per_stitch,stitches_in_view,quantity,truth,value,std,"
    "budget";

struct Options {
    std::string out = "calibration.csv";
    std::uint64_t first_seed = 500000;
    int swatches = 440;
    int crowns = 60;
    unsigned threads = 2;
};

/// Names of the budget's parts with their relative standard uncertainties in per cent.
std::string budget_of(const ridgetally::Measured& m) {
    std::ostringstream out;
    out.precision(3);
    for (const auto& part : m.contributions)
        out << (out.tellp() > 0 ? ";" : "") << part.name << '=' << 100.0 * part.relative_std;
    return out.str();
}

std::string lines_of(const rc::Trial& trial) {
    std::ostringstream start;
    start.precision(6);
    const auto& c = trial.conditions;
    start << trial.kind << ',' << trial.seed << ',' << trial.stitch << ',' << c.tilt_deg << ',' << c.lift_mm
          << ',' << c.blur_px << ',' << c.px_per_stitch << ',' << c.stitches_in_view << ',';
    std::ostringstream out;
    out.precision(7);
    if (!trial.refusal.empty()) out << start.str() << trial.refusal << ",,,,\n";
    for (const auto& s : trial.stated)
        out << start.str() << s.quantity << ',' << s.truth << ',' << s.got.value << ',' << s.got.std << ','
            << budget_of(s.got) << '\n';
    return out.str();
}

/// A photo to take: its kind in the file and its seed.
struct Task {
    bool crown = false;
    std::uint64_t seed = 0;
};

std::set<std::string> done_in(const std::string& file) {
    std::set<std::string> done;
    std::ifstream in(file);
    for (std::string line; std::getline(in, line);) {
        const auto second = line.find(',', line.find(',') + 1);
        done.insert(line.substr(0, second));
    }
    return done;
}

std::vector<Task> tasks_of(const Options& o) {
    const auto done = done_in(o.out);
    std::vector<Task> tasks;
    const auto add = [&](bool crown, const char* last_kind, std::uint64_t seed) {
        if (!done.contains(std::string(last_kind) + "," + std::to_string(seed)))
            tasks.push_back({crown, seed});
    };
    for (int i = 0; i < std::max(o.swatches, o.crowns); ++i) {
        const std::uint64_t seed = o.first_seed + static_cast<std::uint64_t>(i);
        if (i < o.swatches) add(false, "not-told", seed);
        if (i < o.crowns) add(true, "crown", seed);
    }
    return tasks;
}

std::string measured_lines(const Task& task) {
    const auto variety = ridgetally::blackbox::usual_variety();
    if (task.crown) return lines_of(rc::crown_trial(task.seed, variety));
    std::string out;
    for (const auto& trial : rc::swatch_trials(task.seed, variety)) out += lines_of(trial);
    return out;
}

int run(const Options& o) {
    const auto tasks = tasks_of(o);
    const bool begins = !std::ifstream(o.out).good();
    std::ofstream file(o.out, std::ios::app);
    if (!file) throw std::runtime_error("cannot write " + o.out);
    if (begins) file << header << '\n';
    std::cerr << tasks.size() << " photos to measure\n";
    (void)ridgetally::blackbox::knowledge();  // before the threads need it
    std::atomic<std::size_t> next{0};
    std::mutex writing;
    const auto work = [&] {
        for (std::size_t i = next++; i < tasks.size(); i = next++) {
            const std::string lines = measured_lines(tasks[i]);
            const std::scoped_lock lock(writing);
            file << lines << std::flush;  // one photo's lines at once
        }
    };
    std::vector<std::jthread> others;
    for (unsigned t = 1; t < o.threads; ++t) others.emplace_back(work);
    work();
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app("Measures seeded renders for the calibration report; goes on where it was broken off");
    Options o;
    app.add_option("--out", o.out, "CSV file, appended to");
    app.add_option("--first-seed", o.first_seed, "seed of the first photo");
    app.add_option("--swatches", o.swatches, "number of swatches, each measured told and not told");
    app.add_option("--crowns", o.crowns, "number of crowns");
    app.add_option("--threads", o.threads, "photos at a time");
    CLI11_PARSE(app, argc, argv);
    try {
        return run(o);
    } catch (const std::exception& e) {
        std::cerr << "calibrate: " << e.what() << '\n';
        return 1;
    }
}

#include "calibration/trials.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <thread>

#include "synthetic/crown_scene.h"

namespace ridgetally::calibration {
namespace {

using blackbox::Taken;
using blackbox::Told;

/// The scale over the marks that were read: the stated relative uncertainty belongs to that length.
void add_scale(const ScaleResult& scale, const synthetic::Scene& scene, Trial& trial) {
    if (scale.marks.size() < 2 || scene.rulers.empty()) return;
    const ScaleMark &first = scale.marks.front(), &last = scale.marks.back();
    const double truth_mm = blackbox::true_mm_on_ruler(scene, first.foot_px, last.foot_px);
    const double read_mm = last.position_mm - first.position_mm;
    const double off = truth_mm / read_mm;  // pixels a mm are read too high where the mm are read too few
    trial.stated.push_back({"px_per_mm", scale.px_per_mm, scale.px_per_mm.value / off});
}

Trial begun(const char* kind, std::uint64_t seed, const synthetic::Shot& shot, const Taken& photo) {
    const auto& scene = shot.scene;
    const auto& fabric = scene.fabrics.front();
    Trial trial;
    trial.kind = kind;
    trial.seed = seed;
    trial.stitch = key_of(fabric.family);
    trial.conditions.tilt_deg = photo.truth.tilt_deg;
    trial.conditions.lift_mm = photo.truth.fabric_lift_mm.front();
    trial.conditions.blur_px = std::hypot(scene.sensor.blur_px, scene.sensor.motion_px / std::sqrt(12.0));
    trial.conditions.px_per_stitch =
        fabric.stitch_pitch_mm * photo.truth.focal_px / photo.truth.camera_distance_mm;
    trial.conditions.stitches_in_view = fabric.stitches * photo.truth.fabric_in_frame.front();
    return trial;
}

Trial measured_swatch(std::uint64_t seed, const synthetic::Shot& shot, const Taken& photo, Told told) {
    Trial trial = begun(told == Told::stitch ? "told" : "not-told", seed, shot, photo);
    const auto got = blackbox::measured(photo.photo, shot, told);
    if (!got) {
        trial.refusal = got.refusal().stage + "/" + got.refusal().code;
        return trial;
    }
    const synthetic::FabricTruth& truth = photo.truth.fabrics.front();
    const auto add = [&](const char* quantity, const std::optional<Measured>& m, double value) {
        if (m) trial.stated.push_back({quantity, *m, value});
    };
    add("stitches_per_10cm", got->stitches_per_10cm, truth.stitches_per_10cm());
    add("rows_per_10cm", got->rows_per_10cm, truth.rows_per_10cm());
    add("stitches", got->stitches, truth.stitches);
    add("rows", got->rows, truth.rows);
    add_scale(got->scale, shot.scene, trial);
    return trial;
}

}  // namespace

std::vector<Trial> swatch_trials(std::uint64_t seed, const synthetic::Variety& variety) {
    const synthetic::Shot shot = synthetic::random_swatch(seed, variety);
    const Taken photo = blackbox::taken(shot);
    return {measured_swatch(seed, shot, photo, Told::stitch),
            measured_swatch(seed, shot, photo, Told::nothing)};
}

Trial swatch_trial(std::uint64_t seed, const synthetic::Variety& variety, Told told) {
    const synthetic::Shot shot = synthetic::random_swatch(seed, variety);
    return measured_swatch(seed, shot, blackbox::taken(shot), told);
}

Trial crown_trial(std::uint64_t seed, const synthetic::Variety& variety) {
    const synthetic::Shot shot = synthetic::random_crown(seed, variety);
    const Taken photo = blackbox::taken(shot);
    Trial trial = begun("crown", seed, shot, photo);
    const auto got = blackbox::measured_crown(photo.photo, shot);
    if (!got) {
        trial.refusal = got.refusal().stage + "/" + got.refusal().code;
        return trial;
    }
    const synthetic::CrownTruth& truth = photo.truth.crowns.front();
    trial.stated.push_back({"diameter_mm", got->diameter_mm, truth.diameter_mm});
    if (got->rounds) trial.stated.push_back({"rounds", got->rounds->count, 1.0 * truth.rounds});
    if (got->last_round_stitches)
        trial.stated.push_back(
            {"last_round_stitches", got->last_round_stitches->count, 1.0 * truth.stitches.back()});
    add_scale(got->scale, shot.scene, trial);
    return trial;
}

std::vector<Trial> trials_of(std::uint64_t first_seed, int count,
                             const std::function<Trial(std::uint64_t seed)>& one) {
    std::vector<Trial> out(static_cast<std::size_t>(count));
    (void)blackbox::knowledge();  // before the threads need it
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t i = next++; i < out.size(); i = next++) out[i] = one(first_seed + i);
    };
    std::jthread other(work);
    work();
    other.join();
    return out;
}

std::string table_of(const std::vector<Trial>& trials) {
    std::string out;
    for (const Trial& trial : trials) {
        out += trial.kind + " " + std::to_string(trial.seed) + ": " + trial.refusal;
        for (const Stated& s : trial.stated) {
            char text[64];
            std::snprintf(text, sizeof text, " %+.2f %%%s", 100.0 * s.relative_error(),
                          s.within_95() ? "" : "!");
            out += s.quantity + text + "  ";
        }
        out += "\n";
    }
    return out;
}

std::vector<Stated> statements(const std::vector<Trial>& trials, const std::vector<std::string>& quantities) {
    std::vector<Stated> out;
    for (const Trial& trial : trials)
        for (const Stated& s : trial.stated)
            if (std::find(quantities.begin(), quantities.end(), s.quantity) != quantities.end())
                out.push_back(s);
    return out;
}

double coverage_95(const std::vector<Stated>& statements) {
    const auto held =
        std::count_if(statements.begin(), statements.end(), [](const Stated& s) { return s.within_95(); });
    return static_cast<double>(held) / static_cast<double>(statements.size());
}

std::vector<double> absolute_errors(const std::vector<Stated>& statements) {
    std::vector<double> out;
    for (const Stated& s : statements) out.push_back(std::abs(s.relative_error()));
    return out;
}

}  // namespace ridgetally::calibration

#include "blackbox/measured_shot.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <limits>
#include <stdexcept>
#include <thread>

#include "synthetic/jpeg_file.h"

namespace ridgetally::blackbox {
namespace {

Deviation deviation_of(const Measured& got, double truth) {
    return {got.value / truth - 1.0, got.low95() <= truth && truth <= got.high95()};
}

/// Reading of the ruler at a place of the photo: linear between the two marks it lies between, or beyond the
/// last.
double reading_at(const std::vector<ScaleMark>& marks, const cv::Point2d& at) {
    double best_gap = 1e18, reading = 0.0;
    for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
        const cv::Point2d a(marks[i].foot_px.x, marks[i].foot_px.y),
            step = cv::Point2d(marks[i + 1].foot_px.x, marks[i + 1].foot_px.y) - a;
        const double t = (at - a).dot(step) / std::max(step.dot(step), 1e-9);
        const double gap = cv::norm(a + std::clamp(t, 0.0, 1.0) * step - at);
        if (gap >= best_gap) continue;
        best_gap = gap;
        reading = marks[i].position_mm + t * (marks[i + 1].position_mm - marks[i].position_mm);
    }
    return reading;
}

}  // namespace

synthetic::Variety usual_variety() {
    synthetic::Variety variety;
    variety.megapixels = 1.5;
    variety.laid_on_share = 0.0;
    return variety;
}

double length_error(const ScaleResult& scale, const synthetic::Truth& truth) {
    double least = std::numeric_limits<double>::infinity();
    for (const auto& segment : truth.segments) {
        const double mm =
            std::abs(reading_at(scale.marks, segment.q_px) - reading_at(scale.marks, segment.p_px));
        least = std::min(least, std::abs(mm / segment.mm - 1.0));
    }
    return least;
}

double true_mm_on_ruler(const synthetic::Scene& scene, const PhotoPoint& from, const PhotoPoint& to) {
    const synthetic::Projector projector(scene.camera);
    const synthetic::Ruler& ruler = scene.rulers.front();
    const cv::Matx33d face_from_photo =
        projector.pinhole_from_plane(ruler.base_mm + ruler.thickness_mm).inv();
    const auto on_face = [&](const PhotoPoint& at) {
        const cv::Point2d pinhole = projector.undistorted({at.x, at.y});
        const cv::Vec3d p = face_from_photo * cv::Vec3d(pinhole.x, pinhole.y, 1.0);
        return cv::Point2d(p[0] / p[2], p[1] / p[2]);
    };
    return cv::norm(on_face(to) - on_face(from));
}

bool is_wrong(const Trial& trial) {
    const auto wrong = [](const std::optional<Deviation>& d) {
        if (!d) return false;
        const double off = std::abs(d->relative);
        return off > miscounted_from || (off > wrong_from && !d->inside);
    };
    return wrong(trial.stitches) || wrong(trial.rows);
}

const Knowledge& knowledge() {
    static const Knowledge loaded = [] {
        auto outcome = load_knowledge();
        if (!outcome) throw std::runtime_error(outcome.refusal().message);
        return std::move(outcome).value();
    }();
    return loaded;
}

Photo through_a_file(const cv::Mat& bgr, const synthetic::Shot& shot) {
    auto photo = decode_photo(synthetic::jpeg_bytes(bgr, shot.jpeg), "rendered.jpg");
    if (!photo) throw std::runtime_error("a rendered photo could not be read: " + photo.refusal().message);
    return std::move(photo).value();
}

Taken taken(const synthetic::Shot& shot) {
    const synthetic::Picture picture = synthetic::render(shot.scene);
    return {through_a_file(picture.bgr, shot), picture.truth};
}

std::string as_test_name(std::string kind) {
    std::replace(kind.begin(), kind.end(), '-', '_');
    return kind;
}

Outcome<SwatchResult> measured(const Photo& photo, const synthetic::Shot& shot, Told told) {
    SwatchOptions options;
    if (told == Told::stitch && !shot.scene.fabrics.empty()) {
        options.stitch = shot.scene.fabrics.front().family;
        options.worked = shot.scene.fabrics.front().worked;
    }
    Trace nobody_listens;
    return measure_swatch(photo, knowledge(), options, nobody_listens);
}

Outcome<CrownResult> measured_crown(const Photo& photo, const synthetic::Shot& shot) {
    CrownOptions options;
    if (!shot.scene.fabrics.empty()) options.stitch = shot.scene.fabrics.front().family;
    Trace nobody_listens;
    return measure_crown(photo, knowledge(), options, nobody_listens);
}

Trial trial_of(std::uint64_t seed, const synthetic::Shot& shot, Told told) {
    const Taken photo = taken(shot);
    const auto outcome = measured(photo.photo, shot, told);
    Trial trial{seed, std::nullopt, std::nullopt, std::nullopt};
    if (!outcome) {
        trial.refusal = outcome.refusal();
        return trial;
    }
    if (photo.truth.fabrics.empty()) return trial;  // whatever was measured, it was no fabric
    const synthetic::FabricTruth& truth = photo.truth.fabrics.front();
    trial.stitches = deviation_of(outcome->stitches_per_10cm, truth.stitches_per_10cm());
    if (outcome->rows_per_10cm) trial.rows = deviation_of(*outcome->rows_per_10cm, truth.rows_per_10cm());
    return trial;
}

std::vector<Trial> trials(std::uint64_t first_seed, int count, const synthetic::Variety& variety, Told told) {
    std::vector<Trial> out(static_cast<std::size_t>(count));
    (void)knowledge();  // before the threads need it
    std::atomic<int> next{0};
    const auto work = [&] {
        for (int i = next++; i < count; i = next++) {
            const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(i);
            out[static_cast<std::size_t>(i)] = trial_of(seed, synthetic::random_swatch(seed, variety), told);
        }
    };
    std::thread other(work);
    work();
    other.join();
    return out;
}

std::string table_of(const std::vector<Trial>& trials) {
    std::string out;
    const auto cell = [](const std::optional<Deviation>& d) {
        if (!d) return std::string("      -  ");
        char text[32];
        std::snprintf(text, sizeof text, "%+7.2f %%%s", 100.0 * d->relative, d->inside ? " " : "!");
        return std::string(text);
    };
    for (const Trial& t : trials) {
        out += "seed " + std::to_string(t.seed) + ": ";
        out += t.refusal ? t.refusal->stage + "/" + t.refusal->code
                         : "stitches " + cell(t.stitches) + " rows " + cell(t.rows);
        out += is_wrong(t) ? "  WRONG\n" : "\n";
    }
    return out;
}

}  // namespace ridgetally::blackbox

#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "blackbox/measured_shot.h"
#include "synthetic/random_scene.h"

/// Seeded photos measured and compared with their truth: what the short calibration tests and the report
/// share.
namespace ridgetally::calibration {

/// One stated quantity and the truth it should hold.
struct Stated {
    std::string quantity;  ///< as in the JSON report: "stitches_per_10cm", "diameter_mm", ...
    Measured got;
    double truth = 0.0;

    [[nodiscard]] bool within_68() const { return std::abs(got.value - truth) <= got.std; }
    [[nodiscard]] bool within_95() const { return got.low95() <= truth && truth <= got.high95(); }
    /// Measured over true, less one.
    [[nodiscard]] double relative_error() const { return got.value / truth - 1.0; }
};

/// What of a photo might make it harder to measure.
struct Conditions {
    double tilt_deg = 0.0;
    double lift_mm = 0.0;           ///< mean height of the visible yarn above the table
    double blur_px = 0.0;           ///< point spread and smear of the hand, root of squares
    double px_per_stitch = 0.0;     ///< in the middle of the photo
    double stitches_in_view = 0.0;  ///< of a row
};

/// One photo, measured once.
struct Trial {
    std::string kind;  ///< "told", "not-told", "crown"
    std::uint64_t seed = 0;
    std::string stitch;
    Conditions conditions;
    std::string refusal;  ///< "stage/code"; empty where it was measured
    std::vector<Stated> stated;
};

/// One trial a seed from `first_seed` on, on both cores.
[[nodiscard]] std::vector<Trial> trials_of(std::uint64_t first_seed, int count,
                                           const std::function<Trial(std::uint64_t seed)>& one);

/// A swatch told its stitch and not told: two trials of one photo.
[[nodiscard]] std::vector<Trial> swatch_trials(std::uint64_t seed, const synthetic::Variety& variety);
/// A swatch told what `told` says.
[[nodiscard]] Trial swatch_trial(std::uint64_t seed, const synthetic::Variety& variety, blackbox::Told told);
[[nodiscard]] Trial crown_trial(std::uint64_t seed, const synthetic::Variety& variety);

/// One line a trial, for the log of a failed test.
[[nodiscard]] std::string table_of(const std::vector<Trial>& trials);

/// Every statement about these quantities.
[[nodiscard]] std::vector<Stated> statements(const std::vector<Trial>& trials,
                                             const std::vector<std::string>& quantities);
/// Part of the statements whose 95 % interval holds the truth. NaN for none.
[[nodiscard]] double coverage_95(const std::vector<Stated>& statements);
[[nodiscard]] std::vector<double> absolute_errors(const std::vector<Stated>& statements);

}  // namespace ridgetally::calibration

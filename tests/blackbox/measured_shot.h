#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/outcome.h"
#include "pipeline/measure_crown.h"
#include "pipeline/measure_swatch.h"
#include "synthetic/random_scene.h"
#include "synthetic/render.h"

/// The program as its user has it: bytes of a JPEG go in, a result or a refusal comes out.
namespace ridgetally::blackbox {

/// How far the ruler's marks are off over the longest stretch that the photo shows, relative; of the edge
/// that they agree with best, since any of them may have been read. Infinite where no ruler shows such a
/// stretch.
[[nodiscard]] double length_error(const ScaleResult& scale, const synthetic::Truth& truth);

/// True distance in mm of two places of the photo on the face of the scene's first ruler, from the geometry
/// of the camera.
[[nodiscard]] double true_mm_on_ruler(const synthetic::Scene& scene, const PhotoPoint& from,
                                      const PhotoPoint& to);

/// What the trials of tests and report look like: every stitch, ruler, yarn and light, the ruler beside the
/// piece; 1.5 megapixels, which are quick to render.
[[nodiscard]] synthetic::Variety usual_variety();

/// What the user says besides the photo.
enum class Told { stitch, nothing };

/// One quantity against its truth.
struct Deviation {
    double relative = 0.0;  ///< measured over true, less one
    bool inside = false;    ///< the truth lies in the stated 95 % interval
};

/// What came of one photo. Without a refusal `stitches` is there; `rows` where rows were measured.
struct Trial {
    std::uint64_t seed = 0;
    std::optional<Refusal> refusal;
    std::optional<Deviation> stitches;
    std::optional<Deviation> rows;
};

/// An answer off by more than this makes a hat of the wrong size (half a stitch in 10 cm of common yarn), and
/// is wrong where the stated interval does not own up to it.
inline constexpr double wrong_from = 0.05;
/// Off by more than this it is another stitch or row that was counted, whatever the interval says.
inline constexpr double miscounted_from = 0.15;
[[nodiscard]] bool is_wrong(const Trial& trial);

/// Facts and weights, read once. Throws std::runtime_error where they are missing.
[[nodiscard]] const Knowledge& knowledge();

/// The photo of a shot after its trip through a JPEG file.
struct Taken {
    Photo photo;
    synthetic::Truth truth;
};
[[nodiscard]] Photo through_a_file(const cv::Mat& bgr, const synthetic::Shot& shot);
[[nodiscard]] Taken taken(const synthetic::Shot& shot);

/// A kind's name as googletest takes it, which allows no hyphens.
[[nodiscard]] std::string as_test_name(std::string kind);

/// Measures a photo, told what `told` says of the shot.
[[nodiscard]] Outcome<SwatchResult> measured(const Photo& photo, const synthetic::Shot& shot, Told told);

/// The same for a crown, told its stitch where there is one.
[[nodiscard]] Outcome<CrownResult> measured_crown(const Photo& photo, const synthetic::Shot& shot);

[[nodiscard]] Trial trial_of(std::uint64_t seed, const synthetic::Shot& shot, Told told);

/// The trials of `count` random swatches from a first seed on, on both cores.
[[nodiscard]] std::vector<Trial> trials(std::uint64_t first_seed, int count,
                                        const synthetic::Variety& variety, Told told);

/// One line a trial, for the log of a failed test.
[[nodiscard]] std::string table_of(const std::vector<Trial>& trials);

}  // namespace ridgetally::blackbox

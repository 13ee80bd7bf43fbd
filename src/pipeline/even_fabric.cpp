#include "pipeline/even_fabric.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <vector>

#include "rectify/refine_tilt.h"

namespace ridgetally {
namespace {

/// Least scatter a block's pitch is given credit for: blocks of three stitches whose ends vary by 8 %
/// (uneven tension of hand work) scatter by 0.08 sqrt(2) / 3, and their rows average.
constexpr double least_block_std = 0.02;
/// Chi-square a degree of freedom beyond which the blocks differ by more than noise and drift.
constexpr double most_chi_square = 3.0;

/// Two points, or a row of them, leave the tilt to a guess of how phones are held; against that alone the
/// drift of real hand work is taken for tilt: of the 11 gauges read by two points on photographs of real
/// fabric, in use for development, three moved by 8 to 23 % and away from the truth.
bool tells_tilt(const ScaleReference& reference) { return reference.kind != "two-points"; }

std::vector<PitchSample> samples_of(const Lattice& lattice) {
    std::vector<PitchSample> samples;
    for (const auto& block : lattice.blocks) {
        const bool stitch = block.kind == BlockPitch::Kind::stitch;
        samples.push_back(pitch_sample(stitch ? PitchKind::stitch : PitchKind::row, block.at,
                                       stitch ? block.pitch_px : 0.0, stitch ? 0.0 : block.pitch_px,
                                       std::max(least_block_std, block.relative_std),
                                       lattice.photo_from_rectified));
    }
    return samples;
}

double length_mm(const PhotoFromRectified& photo, const ObjectFromPhoto& plane, const RectifiedPoint& at,
                 double dx, double dy) {
    const ObjectPoint a = plane(photo(RectifiedPoint{at.x - 0.5 * dx, at.y - 0.5 * dy}));
    const ObjectPoint b = plane(photo(RectifiedPoint{at.x + 0.5 * dx, at.y + 0.5 * dy}));
    return std::hypot(b.x - a.x, b.y - a.y);
}

}  // namespace

std::optional<EvenedPlane> evened_plane(const ReferencePlane& plane, const Lattice& lattice, double height_mm,
                                        const PhotoPoint& middle, Trace& trace) {
    if (!tells_tilt(plane.reference)) return std::nullopt;
    const Rectification& rectification = plane.rectification;
    const auto refined = refine_tilt(rectification, samples_of(lattice), height_mm);
    if (!refined) {
        trace.note("even fabric: " + refined.refusal().message);
        return std::nullopt;
    }
    std::ostringstream line;
    line << "even fabric: plane turned by " << refined->moved_deg << " degrees, tilt "
         << rectification.tilt_deg << " +- " << rectification.tilt_std_deg << " to "
         << refined->rectification.tilt_deg << " +- " << refined->rectification.tilt_std_deg
         << ", chi-square a degree " << refined->chi_square_per_degree;
    trace.note(line.str());
    if (refined->chi_square_per_degree > most_chi_square) return std::nullopt;

    const auto before = inverse(photo_from_plane_at(rectification, height_mm));
    const auto after = inverse(photo_from_plane_at(refined->rectification, height_mm));
    const auto rectified_from_photo = inverse(lattice.photo_from_rectified);
    if (!before || !after || !rectified_from_photo) return std::nullopt;
    const RectifiedPoint at = (*rectified_from_photo)(middle);
    const double step_px = lattice.stitch_pitch_px.value;
    const auto ratio = [&](double dx, double dy) {
        return length_mm(lattice.photo_from_rectified, *after, at, dx, dy) /
               length_mm(lattice.photo_from_rectified, *before, at, dx, dy);
    };
    return EvenedPlane{refined->rectification, ratio(step_px, 0.0), ratio(0.0, step_px)};
}

}  // namespace ridgetally

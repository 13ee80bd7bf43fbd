#include "pipeline/rim_height.h"

#include <cmath>

#include "core/stitch.h"

namespace ridgetally {
namespace {

/// Height of a crown's edge above the table, in stitch widths: the last round's loops stand free on top of
/// the fabric, and the edge is seen where they are widest, at their middle. Strands of 0.22 widths in radius
/// (four to five radii a width, common practice, no source) lie two deep in most stitches and three deep
/// where the front loops stay unworked as a ridge; the middle of the second is 0.67, that of the third 1.1
/// widths up when they are not pressed. Edges of 260 drawn crowns stood 0.70 widths up (standard deviation
/// 0.15), 0.97 (0.17) with such a ridge; those of six photoreal renders, whose yarn is another's, 0.77 and
/// 1.10: the values lie half-way. Widths are those in the middle of the round; at the rim itself they are a
/// tenth more in crowns of few rounds, which read high stitches too low.
constexpr double plain_rim_part = 0.74;
constexpr double ridged_rim_part = 1.04;
constexpr double rim_part_std = 0.13;

/// Standard uncertainty of how far the rim stands off the table, of the stitch's width: crowns cup and
/// ruffle. Pressed flat most rims lie on the table and few stand three quarters of a row's height off it:
/// likelihood falling evenly over that, 0.75 x 1.15 stitch widths over the root of 18 (JCGM 100:2008, 4.3.9,
/// one side of a triangle; common practice, no source for the row). Of 260 drawn crowns 75 in 100 diameters
/// were within one standard uncertainty and 98 in their 95 % interval; over half a row they were 69 and 96,
/// but 7 of 10 in the half doubles of the black-box groups.
constexpr double off_table_std = 0.20;

RimHeight rim_height(const CrownOptions& options, const RimStitch& stitch) {
    const double off_table = off_table_std * stitch.width_mm;
    if (options.crown_thickness_mm)
        return {*options.crown_thickness_mm, std::hypot(told_thickness_std_mm, off_table)};
    double ridged = stitch.one_loop_chance;
    if (options.stitch) ridged = through_one_loop(*options.stitch) ? 1.0 : 0.0;
    constexpr double ridge_part = ridged_rim_part - plain_rim_part;
    const double part = plain_rim_part + ridged * ridge_part;
    const double part_std = std::hypot(rim_part_std, std::sqrt(ridged * (1.0 - ridged)) * ridge_part);
    return {part * stitch.width_mm, std::hypot(part_std * stitch.width_mm, off_table, part * stitch.std_mm)};
}

}  // namespace

RimHeight rim_above(const FaceHeight& face, const CrownOptions& options, const ReferencePlane& plane,
                    const RimStitch& stitch) {
    // Two points by hand lie on what they measure.
    if (plane.reference.kind == "two-points" && !options.crown_thickness_mm) return {};
    const RimHeight rim = rim_height(options, stitch);
    return {rim.mm - face.mm, std::hypot(rim.std_mm, face.std_mm)};
}

}  // namespace ridgetally

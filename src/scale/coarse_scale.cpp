#include "scale/coarse_scale.h"

#include "scale/coarse_rows.h"

namespace ridgetally {

CoarseScale read_coarse_scale(const GreyPyramid& pyramid) {
    CoarseScale scale;
    for (const CoarseRow& row : find_coarse_rows(pyramid)) {
        CoarseTrial trial = read_coarse_line(pyramid, row);
        if (trial.read) {
            scale.line = std::move(trial.read);
            break;
        }
        scale.notes.push_back("row of edges near " + std::to_string(static_cast<int>(row.origin.x)) + "," +
                              std::to_string(static_cast<int>(row.origin.y)) +
                              " rejected: " + trial.rejected);
    }
    return scale;
}

MarkLine mark_line(const CoarseLine& coarse) {
    MarkLine out;
    out.unit = coarse.reading.unit;
    out.spacing_mm = coarse.reading.mm_per_index;
    out.residual_px = coarse.line.residual_px;
    for (const MeasuredMark& m : coarse.line.marks) {
        const PhotoPoint at = coarse.line.frame.photo(m.at_u, coarse.at_w);
        out.marks.push_back({m.index * coarse.reading.mm_per_index, at, at});
    }
    return out;
}

}  // namespace ridgetally

#pragma once

#include <string>
#include <vector>

#include "scale/index_model.h"
#include "scale/strip.h"
#include "scale/tenth_rows.h"

namespace ridgetally {

/// The fine marks beside a row of divisions.
struct FineComb {
    RowRange rows;           ///< where they stand in the strip
    double amplitude = 0.0;  ///< grey levels
    int first_cell = 0;      ///< divisions that carry them: from mark first_cell on ...
    int last_cell = 0;       ///< ... to mark last_cell
    bool light = false;      ///< lighter than their ground
    std::vector<Sample>
        offsets;        ///< how far right of its tenths the model puts each division's middle, divisions
    std::string fault;  ///< why they are not ten to a division; empty where they are
};

/// How much the tenths of each division lean more than the frame does: u and du per dw, weighted by how
/// clearly they are seen. `profile` is that of all of the strip.
[[nodiscard]] std::vector<Sample> lean_of_tenths(const Strip& strip, const FineProfile& profile,
                                                 const IndexModel& model, int first, int last);

/// Looks for marks at every tenth of the divisions that `profile` counts from `first` to `last`: along all of
/// them, or in the first or last one alone, as bars are printed whose first centimetre only is divided. The
/// profile is taken to pieces by frequency (a periodogram in divisions: Schuster, 1898): ten to the division,
/// in step with it, must stand out from all other frequencies, and in a band of a rule's height. Fewer or
/// more marks, marks out of step and textures that cover all of the strip have a fault.
[[nodiscard]] FineComb tenths_of(const Strip& strip, const FineProfile& profile, int first, int last);

}  // namespace ridgetally

#pragma once

#include <vector>

#include "scale/fine_profile.h"

namespace ridgetally {

/// Rows of a strip, both ends included.
struct RowRange {
    int top = 0;
    int bottom = -1;
};

/// Tenths of the divisions from mark `first` to mark `last`, row by row and division by division: how strong,
/// and in which phase.
class TenthRows {
  public:
    TenthRows(const FineProfile& p, int first, int last);

    /// Rows around the one where tenths are strongest and clearest. Empty where there are none.
    [[nodiscard]] RowRange band() const;

    /// How the tenths of one division turn from row to row of a band; its size tells how sure that is.
    [[nodiscard]] Phasor turn_in(const RowRange& band, int division) const;

  private:
    [[nodiscard]] Phasor turn(int row) const;  ///< to the next row, all divisions together
    [[nodiscard]] double strength(int row) const;

    int first_;
    std::vector<std::vector<Phasor>> rows_;
    std::vector<double> power_;
};

}  // namespace ridgetally

#pragma once

#include <vector>

#include "scale/robust_fit.h"
#include "scale/strip.h"

namespace ridgetally {

/// Colour of the marks against the ruler.
enum class Polarity { dark_on_light, light_on_dark };

/// Rows of the strip that every mark crosses.
struct MarkBand {
    Polynomial top_w;
    Polynomial bottom_w;
};

/// One mark measured in a strip: a straight stroke u = at_u + lean * w from row top_w to row bottom_w.
struct MeasuredMark {
    int index = 0;
    double at_u = 0.0;
    double lean = 0.0;
    double top_w = 0.0;
    double bottom_w = 0.0;
    double contrast = 0.0;  ///< grey levels against the ruler between the marks
    bool cut = false;       ///< one end lies outside the photo: its length is not known
};

/// Where a mark is expected.
struct ExpectedMark {
    int index = 0;
    double u = 0.0;
    double spacing = 0.0;  ///< to its neighbours, photo pixels
};

/// Measures the marks expected; those that are not seen are left out.
[[nodiscard]] std::vector<MeasuredMark> measure_marks(const Strip& strip,
                                                      const std::vector<ExpectedMark>& expected,
                                                      const MarkBand& band, Polarity polarity);

}  // namespace ridgetally

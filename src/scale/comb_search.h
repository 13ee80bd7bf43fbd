#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/geometry.h"
#include "image/pyramid.h"

namespace ridgetally {

/// A small window of the photo whose content is straight parallel strokes at an even spacing.
struct CombCell {
    PhotoPoint centre_px;
    double axis_rad = 0.0;    ///< direction across the strokes, modulo pi
    double pitch_px = 0.0;    ///< spacing of the strokes along that direction, photo pixels
    double regularity = 0.0;  ///< normalised autocorrelation at one pitch, 0 to 1
};

/// Cells that follow each other along their own axis: what a row of ruler marks looks like from afar. Fabric,
/// grain and gratings make chains too; only the later stages tell.
struct CombChain {
    std::vector<CombCell> cells;  ///< sorted along the chain
    double length_px = 0.0;
    double weight = 0.0;  ///< length in pitches times mean regularity
};

/// Why each number: see comb_search.cpp, where each is used.
struct CombSearchOptions {
    int long_side_px = 2048;       ///< the search runs on a reduced picture of this size
    double max_enlargement = 2.0;  ///< small photos are enlarged so that marks 2.3 px apart can be told apart
    int max_chains = 12;           ///< kept, heaviest first
};

/// Finds chains of comb cells at several picture sizes. `pyramid` is the photo's luma.
[[nodiscard]] std::vector<CombChain> search_combs(const GreyPyramid& pyramid,
                                                  const CombSearchOptions& options = {});

}  // namespace ridgetally

#pragma once

#include <string>
#include <vector>

#include "core/measured.h"

namespace ridgetally {

/// One thing a figure was worked out from.
struct Given {
    std::string name;
    double value = 0.0;
    std::string unit;  ///< "mm", "g", "%", ...; empty for counts and ratios
};

/// How one figure came about: everything `--why` shows of it.
struct Derivation {
    std::string name;  ///< "stitch width, yours"
    Measured result;
    std::string unit;
    std::string formula;  ///< in words and signs, in terms of the inputs: "span / stitches"
    std::vector<Given> inputs;
    std::string
        source;  ///< of the formula or of the figures that nobody told: a standard, the maker, the photo
};

/// The figures of one answer in the order they were worked out.
using Workings = std::vector<Derivation>;

/// Why something is advised, or what to beware of. Codes are stable and listed in the README.
struct Reason {
    std::string code;
    std::string message;
};

}  // namespace ridgetally

#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace ridgetally {

/// Photos of one piece whose figures scatter by more than twice their own uncertainty are not of one piece,
/// or one of them lies crooked (two-sided 95 % point of a Birge ratio for few photos is about 2).
inline constexpr double most_birge_ratio = 2.0;

/// What is one error in all photos of a piece: most makers own one ruler and one phone, the fabric lies as
/// high in each, and uneven stitches are the same ones.
[[nodiscard]] inline std::vector<std::string> errors_of_one_piece() {
    return {"reference object",
            "height",
            "focal length",
            "stitch uneven",
            "stitch scatter between parts",
            "row uneven",
            "row scatter between parts",
            "uneven rounds",
            "uneven sides"};
}

/// The first of several results of one piece, with the warnings of all and, if there are several, their
/// photos: what is left to do is to take their figures together. Throws std::invalid_argument for none.
template <typename Result>
[[nodiscard]] Result gathered(const std::vector<Result>& results) {
    if (results.empty()) throw std::invalid_argument("gathered: no results");
    Result all = results.front();
    if (results.size() == 1) return all;
    for (const auto& result : results) {
        all.photos.push_back(result.photo);
        if (&result != &results.front())
            all.warnings.insert(all.warnings.end(), result.warnings.begin(), result.warnings.end());
    }
    return all;
}

}  // namespace ridgetally

#pragma once

#include "disc/disc_outline.h"
#include "disc/strip_fields.h"
#include "image/pyramid.h"
#include "recogniser/recogniser.h"

namespace ridgetally {

/// What the recogniser says of a disc's fabric, stitches read or not: mean probabilities over a twelfth of
/// the turn each, where the edge is seen.
struct FabricLook {
    double least_inside = 0.0;  ///< of all twelfths, from the edge inwards
    /// Beyond the edge: of the twelfths where the two sides are equally bright; of half of all where another
    /// piece lies beside or under it.
    double most_outside = 0.0;
    /// Mean length of the recogniser's row vectors, averaged along a twelfth of every round, 0 to 1: rows of
    /// stitches run along the rounds, the strands of a ball of yarn and the threads of a cloth cross them.
    double rows_along = 0.0;
};

/// The largest mean probability of fabric over a twelfth of the turn where the edge is seen, from half-way
/// between the strip's outer end and the rim on outwards.
[[nodiscard]] double fabric_outside(const DiscOutline& outline, const StripFields& fields);

/// Looks all the way round at the scale that shows the most fabric. A disc of crochet or knitting is fabric
/// all round and ends at its edge, in a photo too dark or too coarse for its stitches as well.
[[nodiscard]] FabricLook look_for_fabric(const Recogniser& recogniser, const GreyPyramid& photo,
                                         const DiscOutline& outline);

/// Whether that is crochet or knitting beyond doubt.
[[nodiscard]] bool surely_fabric(const FabricLook& look);

/// Fabric goes on where the edge of something else was taken for the crown's: 175 drawn crowns had a mean
/// probability of 0.23 at most beyond any twelfth of their edge, two whose edge was lost for a part 0.84 and
/// 0.99.
inline constexpr double most_fabric_outside = 0.3;

}  // namespace ridgetally

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/derivation.h"
#include "catalog/catalog.h"
#include "core/outcome.h"

namespace ridgetally {

/// A ball as its band says.
struct Ball {
    double mass_g = 0.0;
    std::optional<double> length_mm;
};

/// "50g/87yd", "100 g = 177 m", "50g": none for anything else.
[[nodiscard]] std::optional<Ball> parse_ball(std::string_view text);

/// What of a yarn a piece of known area took: a weighed swatch, or a finished piece.
struct WeighedPiece {
    Measured mass_g;
    Measured area_mm2;
    std::string source;                              ///< of the area: "measured in the photo"
    std::string mass_source = "the maker's scales";  ///< of the mass
    std::vector<Given> sides = {};                   ///< what the area was worked out from, where it is known
};

/// A weighed piece of four sides; none where a side is not known. `source` is that of the sides.
[[nodiscard]] std::optional<WeighedPiece> weighed_rectangle(const Measured& mass_g,
                                                            const std::optional<Measured>& width_mm,
                                                            const std::optional<Measured>& height_mm,
                                                            const std::string& source);

/// An area that was worked out from sides told by hand: each read to half a centimetre where nothing else is
/// known (no source).
[[nodiscard]] Measured area_by_hand(double area_mm2);

/// Yarn for one square centimetre, g: mass over area.
[[nodiscard]] Measured mass_per_cm2(const WeighedPiece& weighed);

/// How its mass, its area and the yarn for 100 square centimetres came about.
[[nodiscard]] Workings workings_of(const WeighedPiece& weighed);

/// What the maker has of the yarn.
struct Stock {
    std::optional<double> balls;
    std::optional<double> mass_g;
};

/// Pieces to be made: so many of one area, or of one recorded mass.
struct PiecesWanted {
    std::string name;  ///< "hat for 56 cm"
    int count = 1;
    std::optional<double> area_mm2;
    std::optional<Measured> mass_g;  ///< recorded use of one such piece; goes before the area
    std::string mass_source = "the maker's scales";
};

struct YarnRequest {
    std::optional<WeighedPiece> weighed;
    std::vector<PiecesWanted> pieces;
    std::optional<double> margin;  ///< share to have more; none: that of the catalogue
    std::optional<Ball> ball;
    std::optional<Stock> stock;
    std::string ball_source = "the ball band";
    std::string stock_source = "the maker";
    std::vector<Reason> reasons;  ///< what to know of the figures above, handed on with the answer
};

/// Whether the stock is enough: with the margin; only without it; not even that.
enum class Enough { yes, barely, no };
[[nodiscard]] std::string_view key_of(Enough enough);

struct YarnNeed {
    Measured mass_g;  ///< of all pieces, without margin
    double mass_with_margin_g = 0.0;
    double margin = 0.0;
    std::optional<double> mass_per_100cm2_g;
    std::optional<double> length_with_margin_mm;  ///< where the ball's length is known
    std::optional<double> balls_with_margin;      ///< exact
    std::optional<int> balls_to_have;             ///< whole
    std::optional<double> stock_g;
    std::optional<Enough> enough;
    std::vector<Measured> each_g;  ///< of one piece of each kind, in the order of the request
    std::vector<Reason> reasons;
    Workings workings;
};

/// Grams, length and balls: mass of the weighed piece x area / its area, times margin (published method:
/// weigh and measure a swatch). The spread of equal swatches of one maker is part of the uncertainty.
/// Refusal: stage "advice", code "no-weight" where a piece has neither a recorded mass nor a weighed swatch
/// to go by, and "no-ball" where the stock is told in balls and the ball is not.
[[nodiscard]] Outcome<YarnNeed> yarn_needed(const YarnRequest& request, const Catalog& catalog);

}  // namespace ridgetally

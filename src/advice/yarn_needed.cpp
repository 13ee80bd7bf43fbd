#include "advice/yarn_needed.h"

#include <cmath>

#include "core/amount.h"
#include "core/quantity.h"
#include "core/trade_units.h"

namespace ridgetally {
namespace {

const char* const method = "published method: weigh and measure a swatch, in proportion to the area";

/// Mass of one piece; none where nothing tells it.
std::optional<Measured> mass_of_one(const PiecesWanted& piece, const YarnRequest& request,
                                    const Catalog& catalog, YarnNeed& need) {
    const SourcedValue& spread = catalog.yarn_practice.mass_spread;
    const Contribution of_equal_pieces{"spread of equal pieces", spread.value / std::sqrt(3.0)};
    if (piece.mass_g) {
        const Measured recorded = with(*piece.mass_g, {of_equal_pieces});
        need.workings.push_back({"mass of one, " + piece.name,
                                 recorded,
                                 "g",
                                 "as recorded",
                                 {},
                                 piece.mass_source + "; spread: " + spread.source});
        return recorded;
    }
    if (!request.weighed || !piece.area_mm2) return std::nullopt;
    const WeighedPiece& weighed = *request.weighed;
    const double share = *piece.area_mm2 / weighed.area_mm2.value;
    Measured mass = with(scaled(weighed.mass_g, share),
                         {{"area of the swatch", weighed.area_mm2.relative_std()}, of_equal_pieces});
    need.workings.push_back({"area of one, " + piece.name,
                             exact(*piece.area_mm2 / mm2_per_cm2),
                             "cm2",
                             "as told or planned",
                             {},
                             "the maker; of a hat: a disc and a straight side"});
    need.workings.push_back({"mass of one, " + piece.name,
                             mass,
                             "g",
                             "mass of the swatch x area / area of the swatch",
                             {{"mass of the swatch", weighed.mass_g.value, "g"},
                              {"area", *piece.area_mm2 / mm2_per_cm2, "cm2"},
                              {"area of the swatch", weighed.area_mm2.value / mm2_per_cm2, "cm2"}},
                             std::string(method) + "; spread: " + spread.source});
    return mass;
}

void add_balls(const YarnRequest& request, YarnNeed& need) {
    const Ball& ball = *request.ball;
    const Given mass{"mass with margin", need.mass_with_margin_g, "g"};
    const Given of_ball{"mass of a ball", ball.mass_g, "g"};
    need.balls_with_margin = need.mass_with_margin_g / ball.mass_g;
    // A hair less than a whole ball more is that ball, not another one.
    need.balls_to_have = static_cast<int>(std::ceil(*need.balls_with_margin - 1e-9));
    need.workings.push_back({"mass of a ball", exact(ball.mass_g), "g", "as told", {}, request.ball_source});
    need.workings.push_back({"balls with margin",
                             exact(*need.balls_with_margin),
                             "",
                             "mass with margin / mass of a ball",
                             {mass, of_ball},
                             "definition"});
    need.workings.push_back({"balls to have",
                             exact(*need.balls_to_have),
                             "",
                             "balls with margin, rounded up",
                             {{"balls with margin", *need.balls_with_margin, ""}},
                             "whole balls are sold"});
    if (!ball.length_mm) return;
    need.length_with_margin_mm = need.mass_with_margin_g * *ball.length_mm / ball.mass_g;
    const Given length{"length of a ball", *ball.length_mm / mm_per_m, "m"};
    const double metres = *need.length_with_margin_mm / mm_per_m;
    need.workings.push_back({"length with margin",
                             exact(metres),
                             "m",
                             "mass with margin x length of a ball / mass of a ball",
                             {mass, length, of_ball},
                             request.ball_source});
    need.workings.push_back({"length with margin, in yards",
                             exact(*need.length_with_margin_mm / mm_per_yard),
                             "yd",
                             "metres / 0.9144",
                             {{"metres", metres, "m"}},
                             "international yard, exactly 0.9144 m"});
}

void judge_stock(const YarnRequest& request, YarnNeed& need) {
    const Stock& stock = *request.stock;
    need.stock_g = stock.mass_g ? *stock.mass_g : *stock.balls * request.ball->mass_g;
    need.workings.push_back(
        {"stock", exact(*need.stock_g), "g", stock.mass_g ? "as told" : "balls x mass of a ball",
         stock.mass_g
             ? std::vector<Given>{}
             : std::vector<Given>{{"balls", *stock.balls, ""}, {"mass of a ball", request.ball->mass_g, "g"}},
         request.stock_source});
    need.enough = *need.stock_g >= need.mass_with_margin_g && *need.stock_g >= need.mass_g.high95()
                      ? Enough::yes
                  : *need.stock_g >= need.mass_g.low95() ? Enough::barely
                                                         : Enough::no;
    if (need.enough == Enough::barely)
        need.reasons.push_back({"stock-is-close",
                                "the stock is close to what is needed: it may or may not do; have another "
                                "ball of the same dye lot at hand"});
}

void note_weighing(const YarnRequest& request, YarnNeed& need) {
    // Scales that read to 1 g on a swatch of 4 g are off by up to 12 %; 5 % is about the spread of equal
    // swatches.
    constexpr double coarse = 0.05;
    if (request.weighed && request.weighed->mass_g.relative_std() > coarse)
        need.reasons.push_back({"swatch-too-light",
                                "the swatch is light for these scales: weigh a larger one, several together, "
                                "or on finer scales"});
}

}  // namespace

std::string_view key_of(Enough enough) {
    switch (enough) {
        case Enough::yes:
            return "yes";
        case Enough::barely:
            return "barely";
        case Enough::no:
            break;
    }
    return "no";
}

std::optional<Ball> parse_ball(std::string_view text) {
    const std::string plain = in_plain_characters(text);
    const auto gap = plain.find_first_of("/=");
    Ball ball;
    const auto mass = parse_mass_g(std::string_view(plain).substr(0, gap));
    if (!mass) return std::nullopt;
    ball.mass_g = *mass;
    if (gap == std::string::npos) return ball;
    const auto length = std::string_view(plain).substr(gap + 1);
    // A bare number would be millimetres of yarn: nobody means that.
    if (parse_number(length)) return std::nullopt;
    ball.length_mm = parse_length_mm(length);
    if (!ball.length_mm) return std::nullopt;
    return ball;
}

Measured area_by_hand(double area_mm2) {
    constexpr double side_half_range_mm = 2.5;
    const double relative = side_half_range_mm / std::sqrt(3.0) / std::sqrt(area_mm2);
    return measured(area_mm2, {{"reading of the width", relative}, {"reading of the height", relative}});
}

std::optional<WeighedPiece> weighed_rectangle(const Measured& mass_g, const std::optional<Measured>& width_mm,
                                              const std::optional<Measured>& height_mm,
                                              const std::string& source) {
    if (!width_mm || !height_mm) return std::nullopt;
    WeighedPiece piece;
    piece.mass_g = mass_g;
    piece.area_mm2 = with(scaled(*width_mm, height_mm->value), {{"height", height_mm->relative_std()}});
    piece.source = source;
    piece.sides = {{"width", width_mm->value, "mm"}, {"height", height_mm->value, "mm"}};
    return piece;
}

Workings workings_of(const WeighedPiece& weighed) {
    const Measured area_cm2 = scaled(weighed.area_mm2, 1.0 / mm2_per_cm2);
    return {{"mass of the swatch", weighed.mass_g, "g", "as told", {}, weighed.mass_source},
            {"area of the swatch", area_cm2, "cm2", "width x height", weighed.sides, weighed.source},
            {"yarn for 100 cm2",
             scaled(mass_per_cm2(weighed), 100.0),
             "g",
             "100 x mass / area",
             {{"mass", weighed.mass_g.value, "g"}, {"area", area_cm2.value, "cm2"}},
             method}};
}

Measured mass_per_cm2(const WeighedPiece& weighed) {
    return with(scaled(weighed.mass_g, mm2_per_cm2 / weighed.area_mm2.value),
                {{"area", weighed.area_mm2.relative_std()}});
}

Outcome<YarnNeed> yarn_needed(const YarnRequest& request, const Catalog& catalog) {
    if (request.stock && request.stock->balls && !request.ball)
        return Refusal{"advice", "no-ball", "the stock is told in balls, but not what a ball weighs",
                       "tell the ball, as in 50g/87yd"};
    YarnNeed need;
    need.reasons = request.reasons;
    need.margin = request.margin.value_or(catalog.yarn_practice.margin.usual);
    if (request.weighed) {
        need.mass_per_100cm2_g = 100.0 * mass_per_cm2(*request.weighed).value;
        need.workings = workings_of(*request.weighed);
    }
    double std_g = 0.0;
    for (const auto& piece : request.pieces) {
        const auto one = mass_of_one(piece, request, catalog, need);
        if (!one)
            return Refusal{"advice", "no-weight", "nothing says how much yarn the " + piece.name + " takes",
                           "weigh a swatch and measure it, or tell what one took"};
        need.each_g.push_back(*one);
        need.mass_g.value += piece.count * one->value;
        // Pieces share the swatch, so their errors go the same way.
        std_g += piece.count * one->std;
        need.workings.push_back(
            {"how many, " + piece.name, exact(piece.count), "", "as told", {}, "the maker"});
    }
    need.mass_g = measured(need.mass_g.value, {{"yarn use", std_g / need.mass_g.value}});
    need.mass_with_margin_g = need.mass_g.value * (1.0 + need.margin);
    need.workings.push_back(
        {"mass of all", need.mass_g, "g", "sum of mass of one x how many", {}, "definition"});
    need.workings.push_back({"margin",
                             exact(100.0 * need.margin),
                             "%",
                             request.margin ? "as told" : "from the facts",
                             {},
                             request.margin ? "the maker" : catalog.yarn_practice.margin.source});
    need.workings.push_back({"mass with margin",
                             exact(need.mass_with_margin_g),
                             "g",
                             "mass of all x (1 + margin / 100)",
                             {{"mass of all", need.mass_g.value, "g"}, {"margin", 100.0 * need.margin, "%"}},
                             "definition"});
    need.workings.push_back({"mass with margin, in ounces",
                             exact(need.mass_with_margin_g / g_per_ounce),
                             "oz",
                             "grams / 28.349523125",
                             {{"grams", need.mass_with_margin_g, "g"}},
                             "international ounce, exactly 28.349523125 g"});
    if (request.ball) add_balls(request, need);
    if (request.stock) judge_stock(request, need);
    note_weighing(request, need);
    if (need.balls_to_have.value_or(0) > 1 && need.enough != Enough::yes)
        need.reasons.push_back({"one-dye-lot", "buy all of one dye lot and keep a ball band"});
    return need;
}

}  // namespace ridgetally

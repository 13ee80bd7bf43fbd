#include <algorithm>
#include <cmath>

#include "advice/hat_plan.h"
#include "core/decimal.h"

namespace ridgetally {
namespace {

/// A body of more stitches is a typing mistake, not a hat: the finest lace gauge of the catalogue, 42 over 4
/// in, around 80 cm has 331.
constexpr int most_stitches = 2000;

int nearest_multiple(double count, int multiple) {
    return std::max(multiple, multiple * static_cast<int>(std::lround(count / multiple)));
}

/// Published schemes of 6 a round are used on single crochet whose gauge is flat at 5.0 to 6.3 (catalogue,
/// stitches): 0.95 to 1.2 of what lies flat.
constexpr double least_of_flat = 0.95;
constexpr double most_of_flat = 1.2;

/// Rounds of the crown: as many as make it as wide as the body, or one fewer where so many would cup.
int crown_round_count(int stitches, double flat_increase) {
    const double rounds = stitches / flat_increase;
    const int nearest = std::max(1, static_cast<int>(std::lround(rounds)));
    const bool fewer_is_flatter =
        rounds / nearest < least_of_flat && nearest > 1 && rounds / (nearest - 1) <= most_of_flat;
    return fewer_is_flatter ? nearest - 1 : nearest;
}

void note_increase(const HatGauge& gauge, HatPlan& plan) {
    const double ratio = plan.added_each_round / gauge.flat_increase.value;
    if (ratio < least_of_flat)
        plan.reasons.push_back(
            {"crown-cups",
             "fewer stitches are added each round than lie flat at this gauge: the crown will cup"});
    if (ratio > most_of_flat)
        plan.reasons.push_back(
            {"crown-ruffles",
             "more stitches are added each round than lie flat at this gauge: the edge will ruffle"});
}

void note_ease(const HatPractice& practice, HatPlan& plan) {
    // A hundredth of a per cent: rounding, not a hat.
    constexpr double slack = 1e-4;
    if (plan.ease > practice.ease.high + slack)
        plan.reasons.push_back(
            {"hat-loose", "the whole number of stitches makes the hat larger than published ease allows"});
    if (plan.ease < practice.ease.low - slack)
        plan.reasons.push_back(
            {"hat-tight", "the whole number of stitches makes the hat smaller than published ease allows"});
}

void add_rounds(const HatRequest& request, const HatGauge& gauge, HatPlan& plan) {
    const double row_mm = gauge.row_height_mm.value;
    const auto rounds_of = [&](double mm) { return static_cast<int>(std::lround(mm / row_mm)); };
    plan.added_each_round = request.added_each_round
                                ? *request.added_each_round
                                : static_cast<double>(plan.stitches) /
                                      crown_round_count(plan.stitches, gauge.flat_increase.value);
    plan.crown = crown_rounds(round_counts(plan.added_each_round, plan.stitches), gauge.row_height_mm);
    const int crown = static_cast<int>(plan.crown.size());
    plan.body_rounds = std::max(0, rounds_of(plan.shape.height_mm) - crown);
    plan.brim_rounds = std::min(plan.body_rounds, rounds_of(request.brim_mm));
    plan.turn_up_rounds = rounds_of(request.wish.turn_up_mm);
    plan.height_mm = scaled(gauge.row_height_mm, crown + plan.body_rounds);
}

/// Increases of a round and the plain stitches between them.
void add_increases(const CrownRound& round, int worked_into, Workings& workings) {
    if (round.groups.empty()) return;
    const std::string of_round = " of round " + std::to_string(round.number);
    const int increases = round.stitches % worked_into;
    const int plain = worked_into - increases;
    const Given increases_given{"increases", static_cast<double>(increases), ""};
    workings.push_back({"increases" + of_round,
                        exact(increases),
                        "",
                        "stitches after it, less a whole number of times those before",
                        {{"stitches after", static_cast<double>(round.stitches), ""},
                         {"stitches before", static_cast<double>(worked_into), ""}},
                        "definition"});
    const int shortest = plain / increases;
    const int longer = plain % increases;
    const int half = shortest / 2;
    workings.push_back({"plain stitches of a group" + of_round,
                        exact(shortest),
                        "",
                        "plain stitches / increases, whole; the first groups have one more; in even rounds "
                        "half of them stand before the increase",
                        {{"plain stitches", static_cast<double>(plain), ""},
                         increases_given,
                         {"groups with one more", static_cast<double>(longer), ""},
                         {"groups without", static_cast<double>(increases - longer), ""},
                         {"half of a group", static_cast<double>(half), ""}},
                        "spread evenly (common practice)"});
}

void add_workings(const HatRequest& request, const HatGauge& gauge, HatPlan& plan) {
    const Given width{"stitch width", gauge.stitch_width_mm.value, "mm"};
    const Given row{"round height", gauge.row_height_mm.value, "mm"};
    const double crown = static_cast<double>(plan.crown.size());
    auto& w = plan.workings;
    w.push_back({"stitches around",
                 exact(plan.stitches),
                 "",
                 "hat around / stitch width, to the nearest multiple",
                 {{"hat around", plan.shape.circumference_mm, "mm"},
                  width,
                  {"multiple", static_cast<double>(request.multiple), ""}},
                 "definition"});
    w.push_back({"around, with whole stitches",
                 plan.circumference_mm,
                 "mm",
                 "stitches x stitch width",
                 {{"stitches", static_cast<double>(plan.stitches), ""}, width},
                 "definition"});
    w.push_back(
        {"ease, with whole stitches",
         exact(100.0 * plan.ease),
         "%",
         "100 (around / head - 1)",
         {{"around", plan.circumference_mm.value, "mm"}, {"head", plan.shape.head.circumference_mm, "mm"}},
         "definition of ease"});
    if (request.added_each_round) {
        w.push_back(
            {"stitches added each round", exact(plan.added_each_round), "", "as told", {}, "the maker"});
    } else {
        w.push_back({"stitches added each round",
                     exact(plan.added_each_round),
                     "",
                     "stitches / rounds of the crown; these are stitches / stitches a flat crown adds, whole",
                     {{"stitches", static_cast<double>(plan.stitches), ""},
                      {"stitches a flat crown adds", gauge.flat_increase.value, ""},
                      {"rounds", crown, ""}},
                     "geometry"});
    }
    int worked_into = 0;
    for (const auto& round : plan.crown) {
        w.push_back({"stitches after round " + std::to_string(round.number),
                     exact(round.stitches),
                     "",
                     "round number x stitches added, whole, at most those around",
                     {{"round number", static_cast<double>(round.number), ""},
                      {"stitches added", plan.added_each_round, ""}},
                     "geometry; increases spread evenly, staggered in even rounds (common practice)"});
        w.push_back({"across after round " + std::to_string(round.number),
                     round.diameter_mm,
                     "mm",
                     "2 x round number x round height",
                     {{"round number", static_cast<double>(round.number), ""}, row},
                     "geometry; the start ring adds a little"});
        add_increases(round, worked_into, w);
        worked_into = round.stitches;
    }
    w.push_back({"rounds without increases",
                 exact(plan.body_rounds),
                 "",
                 "height / round height, less the crown's rounds, whole",
                 {{"height", plan.shape.height_mm, "mm"}, row, {"crown's rounds", crown, ""}},
                 "definition"});
    w.push_back({"height, with whole rounds",
                 plan.height_mm,
                 "mm",
                 "rounds x round height",
                 {{"rounds", crown + plan.body_rounds, ""}, row},
                 "definition"});
    if (request.brim_mm > 0.0)
        w.push_back({"rounds of the brim",
                     exact(plan.brim_rounds),
                     "",
                     "brim / round height, whole",
                     {{"brim", request.brim_mm, "mm"}, row},
                     "the maker"});
    if (plan.turn_up_rounds > 0)
        w.push_back({"rounds of the turn-up",
                     exact(plan.turn_up_rounds),
                     "",
                     "turn-up / round height, whole",
                     {{"turn-up", request.wish.turn_up_mm, "mm"}, row},
                     "the maker"});
}

}  // namespace

Outcome<HatPlan> plan_hat(const Head& head, const HatRequest& request, const HatGauge& gauge,
                          const Catalog& catalog) {
    const HatPractice& practice = catalog.hat_practice;
    if (!is_high_enough(head, request.wish, practice))
        return Refusal{"advice", "hat-too-low", "a hat so low has no side below its crown",
                       "tell more height, or leave it away"};
    HatPlan plan;
    plan.shape = hat_shape(head, request.wish, practice);
    const double fitting = plan.shape.circumference_mm / gauge.stitch_width_mm.value;
    // A ring of three is the least that can be worked round.
    if (fitting < 3.0 || fitting > most_stitches || gauge.flat_increase.value < 1.0) {
        return Refusal{"advice", "no-plan", fixed(fitting, 0) + " stitches around make no hat",
                       "check the gauge, its span and the head"};
    }
    plan.stitches = nearest_multiple(fitting, request.multiple);
    plan.circumference_mm = scaled(gauge.stitch_width_mm, plan.stitches);
    plan.ease = plan.circumference_mm.value / head.circumference_mm - 1.0;
    add_rounds(request, gauge, plan);
    note_increase(gauge, plan);
    note_ease(practice, plan);
    plan.workings = shape_workings(plan.shape, request.wish, practice);
    const auto people =
        people_workings(head.circumference_mm, among_people(head.circumference_mm, catalog), catalog);
    plan.workings.insert(plan.workings.end(), people.begin(), people.end());
    plan.workings.insert(plan.workings.end(), gauge.workings.begin(), gauge.workings.end());
    add_workings(request, gauge, plan);
    return plan;
}

}  // namespace ridgetally

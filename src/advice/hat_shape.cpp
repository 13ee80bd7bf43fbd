#include "advice/hat_shape.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace ridgetally {
namespace {

double ease_share(const Head& head, const Ease& ease, const UsualRange& usual) {
    if (ease.share) return *ease.share;
    if (ease.length_mm) return *ease.length_mm / head.circumference_mm;
    return usual.usual;
}

double usual_height(const Head& head, const HeightRule& rule) {
    return rule.share_of_head * head.circumference_mm + 0.5 * (rule.plus_low_mm + rule.plus_high_mm);
}

double radius_of(double circumference_mm) { return 0.5 * circumference_mm / std::numbers::pi; }

}  // namespace

bool is_high_enough(const Head& head, const HatWish& wish, const HatPractice& practice) {
    const double circumference = head.circumference_mm * (1.0 + ease_share(head, wish.ease, practice.ease));
    return wish.height_mm.value_or(usual_height(head, practice.height_rules.front())) >
           radius_of(circumference);
}

HatShape hat_shape(const Head& head, const HatWish& wish, const HatPractice& practice) {
    HatShape shape;
    shape.head = head;
    shape.ease = ease_share(head, wish.ease, practice.ease);
    shape.circumference_mm = head.circumference_mm * (1.0 + shape.ease);
    shape.height_mm = wish.height_mm.value_or(usual_height(head, practice.height_rules.front()));
    shape.turn_up_mm = wish.turn_up_mm;
    const double radius = radius_of(shape.circumference_mm);
    if (!(shape.circumference_mm > 0.0) || !(shape.height_mm > radius))
        throw std::invalid_argument("a hat has a circumference, and a side below its crown");
    shape.circumference_low_mm = head.circumference_mm * (1.0 + practice.ease.low);
    shape.circumference_high_mm = head.circumference_mm * (1.0 + practice.ease.high);
    shape.crown_diameter_mm = 2.0 * radius;
    shape.crown_diameter_of_head_mm = head.circumference_mm / std::numbers::pi;
    const double side = shape.height_mm - radius + shape.turn_up_mm;
    shape.area_mm2 = std::numbers::pi * radius * radius + shape.circumference_mm * side;
    return shape;
}

Workings shape_workings(const HatShape& shape, const HatWish& wish, const HatPractice& practice) {
    const double head = shape.head.circumference_mm;
    const Given head_given{"head", head, "mm"};
    const bool told = wish.ease.share || wish.ease.length_mm;
    const HeightRule& rule = practice.height_rules.front();
    Workings workings = {
        {"head", exact(head), "mm", shape.head.low_mm ? "from the facts" : "as told", {}, shape.head.source},
        {"ease",
         exact(100.0 * shape.ease),
         "%",
         told ? "as told" : "from the facts",
         {},
         told ? "the maker" : practice.ease.source},
        {"hat around",
         exact(shape.circumference_mm),
         "mm",
         "head x (1 + ease / 100)",
         {head_given, {"ease", 100.0 * shape.ease, "%"}},
         "definition of ease"},
        {"hat around, tightest",
         exact(shape.circumference_low_mm),
         "mm",
         "head x (1 + ease / 100)",
         {head_given, {"ease", 100.0 * practice.ease.low, "%"}},
         practice.ease.source},
        {"hat around, loosest",
         exact(shape.circumference_high_mm),
         "mm",
         "head x (1 + ease / 100)",
         {head_given, {"ease", 100.0 * practice.ease.high, "%"}},
         practice.ease.source},
        {"crown across, of the hat",
         exact(shape.crown_diameter_mm),
         "mm",
         "hat around / pi",
         {{"hat around", shape.circumference_mm, "mm"}},
         "geometry; published rules disagree whether hat or head counts"},
        {"crown across, of the head",
         exact(shape.crown_diameter_of_head_mm),
         "mm",
         "head / pi",
         {head_given},
         "geometry; published rules disagree whether hat or head counts"},
        {"height",
         exact(shape.height_mm),
         "mm",
         wish.height_mm ? "as told" : "share x head, centre of the crown to the edge",
         {},
         wish.height_mm ? "the maker" : rule.source}};
    if (!wish.height_mm) workings.back().inputs = {{"share", rule.share_of_head, ""}, head_given};
    if (shape.head.low_mm)
        workings.push_back(
            {"heads from", exact(*shape.head.low_mm), "mm", "from the facts", {}, shape.head.source});
    if (shape.head.high_mm)
        workings.push_back(
            {"heads to", exact(*shape.head.high_mm), "mm", "from the facts", {}, shape.head.source});
    if (shape.turn_up_mm > 0.0)
        workings.push_back({"turn-up", exact(shape.turn_up_mm), "mm", "as told", {}, "the maker"});
    workings.push_back({"fabric",
                        exact(shape.area_mm2 / 100.0),
                        "cm2",
                        "pi r^2 + around x (height - r + turn-up), r = crown across / 2",
                        {{"crown across", shape.crown_diameter_mm, "mm"},
                         {"around", shape.circumference_mm, "mm"},
                         {"height", shape.height_mm, "mm"},
                         {"turn-up", shape.turn_up_mm, "mm"}},
                        "geometry: a disc and a straight side"});
    return workings;
}

}  // namespace ridgetally

#include "yarns/yarn.h"

namespace ridgetally {
namespace {

std::optional<double> times(const std::optional<double>& a, const std::optional<double>& b) {
    if (!a || !b) return std::nullopt;
    return *a * *b;
}

}  // namespace

std::string_view key_of(Craft craft) { return craft == Craft::crochet ? "crochet" : "knit"; }

std::optional<double> grams_left(const Yarn& yarn) { return times(yarn.balls, yarn.ball_g); }

std::optional<double> metres_left(const Yarn& yarn) { return times(yarn.balls, yarn.ball_m); }

std::optional<double> in_balls(const Amount& amount, const Yarn& yarn) {
    if (amount.unit == AmountUnit::balls) return amount.value;
    const auto& on_one = amount.unit == AmountUnit::grams ? yarn.ball_g : yarn.ball_m;
    if (!on_one) return std::nullopt;
    return amount.value / *on_one;
}

}  // namespace ridgetally

#include "core/random.h"

#include <cmath>
#include <stdexcept>

namespace ridgetally {

std::uint64_t Random::next() {
    state_ += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
}

double Random::uniform(double low, double high) {
    return low + (high - low) * static_cast<double>(next() >> 11U) * 0x1.0p-53;
}

int Random::whole(int low, int high) {
    if (high < low) throw std::invalid_argument("Random::whole: empty range");
    const auto span = static_cast<std::uint64_t>(static_cast<std::int64_t>(high) - low) + 1U;
    return low + static_cast<int>(next() % span);
}

double Random::normal(double mean, double std) {
    const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform(0.0, 1.0)));
    return mean + std * radius * std::cos(6.283185307179586 * uniform(0.0, 1.0));
}

}  // namespace ridgetally

#pragma once

#include <cstdint>

namespace ridgetally {

/// Seeded random numbers, the same on every machine and library: SplitMix64 (G. L. Steele, D. Lea,
/// C. H. Flood, OOPSLA 2014, doi 10.1145/2660193.2660195), which the standard's distributions are not.
class Random {
  public:
    explicit Random(std::uint64_t seed) : state_(seed) {}

    std::uint64_t next();
    /// Uniform in [low, high).
    double uniform(double low, double high);
    /// Whole number, uniform in [low, high]. Throws std::invalid_argument where high < low.
    int whole(int low, int high);
    /// Normal with the given mean and standard deviation (Box and Muller, 1958).
    double normal(double mean, double std);

  private:
    std::uint64_t state_;
};

}  // namespace ridgetally

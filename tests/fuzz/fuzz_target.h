#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <span>
#include <string_view>

/// What every fuzz target defines: libFuzzer calls it, or replay.cpp where there is no libFuzzer.
/// The name that libFuzzer asks for.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace ridgetally::fuzz {

/// Ends the process, which the fuzzer takes for a finding, where something that must hold does not.
inline void require(bool holds) {
    if (!holds) std::abort();
}

inline std::string_view text_of(std::span<const std::uint8_t> bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

}  // namespace ridgetally::fuzz

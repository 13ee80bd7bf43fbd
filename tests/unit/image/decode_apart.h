#pragma once

#include <string>

#include "files_of_tests.h"

/// What a photo file costs to decode, for tests of small files that claim, or unpack to, far more than a
/// photo.
namespace ridgetally::files {

/// What decoding took: the refusal's code ("read" for none), and how far memory grew at its peak.
struct Taken {
    std::string code;
    long grown_kib = 0;
};

/// In a process of its own: the peak of a process never falls.
[[nodiscard]] Taken decode_apart(const Bytes& file);

/// More than libraries need to start; the bombs ask for hundreds of MiB and more.
inline constexpr long little_kib = 64 * 1024;

}  // namespace ridgetally::files

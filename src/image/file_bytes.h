#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "core/outcome.h"

namespace ridgetally {

/// The bytes of a file. Refusals (stage "photo"): no-input, io, and too-large over max_bytes.
[[nodiscard]] Outcome<std::vector<std::uint8_t>> read_file(const std::string& path, std::size_t max_bytes);

/// A file written in full.
struct Written {
    std::string path;
};

/// Writes a file whole or not at all: to a temporary beside it, then renamed over it. A link's target is
/// replaced, not the link; what is no regular file (a pipe, a terminal) is written to as it stands.
/// Refusal (stage "write"): io, with the system's reason.
[[nodiscard]] Outcome<Written> write_file(const std::string& path, std::span<const std::uint8_t> bytes);

/// SHA-256 (FIPS 180-4), lower-case hex.
[[nodiscard]] std::string sha256_hex(std::span<const std::uint8_t> bytes);

}  // namespace ridgetally

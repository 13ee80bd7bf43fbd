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

/// Whether a file must be on the disk before it takes the place of an older one, whatever becomes of the
/// power.
enum class Durability {
    left_to_system,  ///< pictures and the like: made again in a second
    synced           ///< what stands for the record
};

/// Writes a file whole or not at all, wherever the program is stopped: to a file without a name in the same
/// folder, or where the system has none to NAME.part-PID, that then takes the name. A link's target is
/// replaced, not the link; what is no regular file (a pipe, a terminal) is written to as it stands. Refusal
/// (stage "write"): io, with the system's reason; an older file is as it was.
[[nodiscard]] Outcome<Written> write_file(const std::string& path, std::span<const std::uint8_t> bytes,
                                          Durability durability = Durability::left_to_system);

/// SHA-256 (FIPS 180-4), lower-case hex.
[[nodiscard]] std::string sha256_hex(std::span<const std::uint8_t> bytes);

}  // namespace ridgetally

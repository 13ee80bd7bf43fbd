#include "image/file_bytes.h"

#include <fcntl.h>
#include <nettle/sha2.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <system_error>

#include "image/decode.h"
#include "image/descriptor.h"

namespace ridgetally {
namespace {

std::string reason(int error) { return std::generic_category().message(error); }

Refusal no_input(const std::string& why) {
    return photo_refusal("no-input", "the file cannot be opened: " + why, "check the path");
}

}  // namespace

Outcome<std::vector<std::uint8_t>> read_file(const std::string& path, std::size_t max_bytes) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.number() < 0) return no_input(reason(errno));
    struct stat facts {};
    if (::fstat(file.number(), &facts) != 0) return no_input(reason(errno));
    if (S_ISDIR(facts.st_mode)) return no_input(reason(EISDIR));

    // Pipes and the like have no size: the buffer grows by what is read.
    constexpr std::size_t step = 1 << 16;
    std::vector<std::uint8_t> bytes(std::min(static_cast<std::size_t>(facts.st_size), max_bytes) + step);
    std::size_t used = 0;
    while (used <= max_bytes) {
        if (used == bytes.size()) bytes.resize(2 * bytes.size());
        const ssize_t got = ::read(file.number(), bytes.data() + used, bytes.size() - used);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return photo_refusal("io", "reading failed: " + reason(errno), "copy the photo again");
        if (got == 0) {
            bytes.resize(used);
            return bytes;
        }
        used += static_cast<std::size_t>(got);
    }
    return photo_refusal("too-large", "the file is over " + std::to_string(max_bytes / 1000000) + " MB",
                         "give the photo as the phone saved it");
}

std::string sha256_hex(std::span<const std::uint8_t> bytes) {
    sha256_ctx context{};
    sha256_init(&context);
    sha256_update(&context, bytes.size(), bytes.data());
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
    sha256_digest(&context, digest.size(), digest.data());
    constexpr const char* digits = "0123456789abcdef";
    std::string hex;
    for (const std::uint8_t byte : digest) {
        hex += digits[byte >> 4];
        hex += digits[byte & 15];
    }
    return hex;
}

}  // namespace ridgetally

#include "image/file_bytes.h"

#include <fcntl.h>
#include <sha2.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>
#include <utility>

#include "image/decode.h"

namespace ridgetally {
namespace {

std::string reason(int error) { return std::generic_category().message(error); }

/// Owns a file descriptor.
class Descriptor {
  public:
    explicit Descriptor(int number) : number_(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    [[nodiscard]] int number() const { return number_; }
    /// 0, or the error that closing brought up: some systems report a full disk only then.
    [[nodiscard]] int close() { return ::close(std::exchange(number_, -1)) == 0 ? 0 : errno; }

  private:
    int number_;
};

Refusal no_input(const std::string& why) {
    return photo_refusal("no-input", "the file cannot be opened: " + why, "check the path");
}

Refusal not_written(const std::string& path, int error) {
    return {"write", "io", "cannot write " + path + ": " + reason(error),
            "check the folder and the space left"};
}

/// 0, or the error.
int write_all(int descriptor, std::span<const std::uint8_t> bytes) {
    while (!bytes.empty()) {
        const ssize_t done = ::write(descriptor, bytes.data(), bytes.size());
        if (done < 0 && errno == EINTR) continue;
        if (done < 0) return errno;
        bytes = bytes.subspan(static_cast<std::size_t>(done));
    }
    return 0;
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

Outcome<Written> write_file(const std::string& path, std::span<const std::uint8_t> bytes) {
    std::error_code ignored;
    const bool in_place =
        std::filesystem::exists(path, ignored) && !std::filesystem::is_regular_file(path, ignored);
    const auto resolved = std::filesystem::weakly_canonical(path, ignored);
    const std::string target = in_place || resolved.empty() ? path : resolved.string();
    const std::string part = in_place ? path : target + ".part-" + std::to_string(::getpid());

    Descriptor file(::open(part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
    if (file.number() < 0) return not_written(path, errno);
    int error = write_all(file.number(), bytes);
    if (const int closing = file.close(); error == 0) error = closing;
    if (!in_place && error == 0 && std::rename(part.c_str(), target.c_str()) != 0) error = errno;
    if (error == 0) return Written{path};
    if (!in_place) ::unlink(part.c_str());
    return not_written(path, error);
}

std::string sha256_hex(std::span<const std::uint8_t> bytes) {
    SHA2_CTX context{};
    SHA256Init(&context);
    SHA256Update(&context, bytes.data(), bytes.size());
    std::array<std::uint8_t, SHA256_DIGEST_LENGTH> digest{};
    SHA256Final(digest.data(), &context);
    constexpr const char* digits = "0123456789abcdef";
    std::string hex;
    for (const std::uint8_t byte : digest) {
        hex += digits[byte >> 4];
        hex += digits[byte & 15];
    }
    return hex;
}

}  // namespace ridgetally

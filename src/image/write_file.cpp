#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <system_error>

#include "image/descriptor.h"
#include "image/file_bytes.h"

namespace ridgetally {
namespace {

namespace fs = std::filesystem;

/// What is to be written, and where it must lie in the end.
struct Wanted {
    std::string target;  ///< where links lead
    std::span<const std::uint8_t> bytes;
    Durability durability;

    [[nodiscard]] std::string folder() const {
        const std::string parent = fs::path(target).parent_path().string();
        return parent.empty() ? "." : parent;
    }
    [[nodiscard]] std::string part() const { return target + ".part-" + std::to_string(::getpid()); }
};

/// Each gives 0, or the error.
int write_all(int descriptor, std::span<const std::uint8_t> bytes) {
    while (!bytes.empty()) {
        const ssize_t done = ::write(descriptor, bytes.data(), bytes.size());
        if (done < 0 && errno == EINTR) continue;
        if (done < 0) return errno;
        bytes = bytes.subspan(static_cast<std::size_t>(done));
    }
    return 0;
}

int fill(int descriptor, const Wanted& wanted) {
    if (const int error = write_all(descriptor, wanted.bytes); error != 0) return error;
    const bool synced = wanted.durability == Durability::synced;
    return synced && ::fsync(descriptor) != 0 ? errno : 0;
}

int rename_over(const std::string& part, const Wanted& wanted) {
    if (std::rename(part.c_str(), wanted.target.c_str()) == 0) return 0;
    const int error = errno;
    ::unlink(part.c_str());
    return error;
}

/// The new name lasts only once the folder is on the disk as well (fsync(2)).
void keep_name(const Wanted& wanted) {
    if (wanted.durability != Durability::synced) return;
    const Descriptor folder(::open(wanted.folder().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (folder.number() >= 0) (void)::fsync(folder.number());
}

/// Gives a file without a name its name. A file that is there cannot be replaced by one that has none: only
/// for the moment between two calls does the new one stand beside it.
int give_name(int descriptor, const Wanted& wanted) {
    const std::string open_file = "/proc/self/fd/" + std::to_string(descriptor);
    const auto link_to = [&](const std::string& name) {
        return ::linkat(AT_FDCWD, open_file.c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) == 0 ? 0
                                                                                                     : errno;
    };
    if (const int error = link_to(wanted.target); error != EEXIST) return error;
    const std::string part = wanted.part();
    ::unlink(part.c_str());
    if (const int error = link_to(part); error != 0) return error;
    return rename_over(part, wanted);
}

/// Writes a file that has no name until it is whole, so that nothing is left of it wherever the program is
/// ended (open(2), O_TMPFILE). None where the file system has no such files.
std::optional<int> write_unnamed(const Wanted& wanted) {
    const Descriptor file(::open(wanted.folder().c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, 0666));
    if (file.number() < 0) return std::nullopt;
    if (const int error = fill(file.number(), wanted); error != 0) return error;
    const int error = give_name(file.number(), wanted);
    if (error == ENOENT || error == ENOTSUP || error == EXDEV) return std::nullopt;  // no /proc, for one
    return error;
}

/// The same with a name of its own while it is written.
int write_beside(const Wanted& wanted) {
    const std::string part = wanted.part();
    Descriptor file(::open(part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
    if (file.number() < 0) return errno;
    int error = fill(file.number(), wanted);
    if (const int closing = file.close(); error == 0) error = closing;
    if (error == 0) return rename_over(part, wanted);
    ::unlink(part.c_str());
    return error;
}

/// What is no regular file: a pipe, a terminal.
int write_into(const std::string& path, std::span<const std::uint8_t> bytes) {
    Descriptor file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
    if (file.number() < 0) return errno;
    const int error = write_all(file.number(), bytes);
    const int closing = file.close();
    return error != 0 ? error : closing;
}

}  // namespace

Outcome<Written> write_file(const std::string& path, std::span<const std::uint8_t> bytes,
                            Durability durability) {
    std::error_code ignored;
    int error = 0;
    if (fs::exists(path, ignored) && !fs::is_regular_file(path, ignored)) {
        error = write_into(path, bytes);
    } else {
        const auto resolved = fs::weakly_canonical(path, ignored);
        const Wanted wanted{resolved.empty() ? path : resolved.string(), bytes, durability};
        const auto unnamed = write_unnamed(wanted);
        error = unnamed ? *unnamed : write_beside(wanted);
        if (error == 0) keep_name(wanted);
    }
    if (error == 0) return Written{path};
    return Refusal{"write", "io", "cannot write " + path + ": " + std::generic_category().message(error),
                   "check the folder and the space left"};
}

}  // namespace ridgetally

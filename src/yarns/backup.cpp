#include "yarns/backup.h"

#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

#include "yarns/fault.h"
#include "yarns/sql/database.h"

namespace ridgetally {
namespace {

/// A file that is removed again unless it was kept.
class Part {
  public:
    explicit Part(std::string path) : path_(std::move(path)) { remove(); }
    Part(const Part&) = delete;
    Part& operator=(const Part&) = delete;
    ~Part() { remove(); }
    [[nodiscard]] const std::string& path() const { return path_; }

  private:
    void remove() const {
        std::error_code ignored;
        std::filesystem::remove(path_, ignored);
        std::filesystem::remove(path_ + "-journal", ignored);
    }
    std::string path_;
};

}  // namespace

Outcome<std::string> write_backup(const std::string& path, int version) {
    const Part part(path + ".part-" + std::to_string(::getpid()));
    // A connection of its own: the one that holds the write lock cannot be copied from.
    sql::Database(path, sql::Missing::fails, 0).copy_to(part.path());
    const std::string stem = path + ".schema-" + std::to_string(version) + ".backup";
    std::string name = stem;
    for (int next = 2; ::link(part.path().c_str(), name.c_str()) != 0; ++next) {
        if (errno != EEXIST) {
            return Refusal{record_stage, "io",
                           "no backup can be written to " + name + ": " +
                               std::generic_category().message(errno) + "; nothing was changed",
                           "check the folder and the space left"};
        }
        name = stem + "-" + std::to_string(next);
    }
    return name;
}

}  // namespace ridgetally

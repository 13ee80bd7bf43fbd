#pragma once

#include <memory>
#include <string>

#include "core/outcome.h"

namespace ridgetally {

namespace sql {
class Database;
}

/// What a record is opened for. Looking makes no file where there is none: the record is empty then.
enum class Access { look, change };

struct RecordOptions {
    int busy_timeout_ms = 5000;  ///< how long to wait while another program writes; not swept
};

/// The maker's record of yarns and what each gave on which hook: one SQLite file. Every change is one
/// transaction; a program that is killed, a full disk or a power cut leave the record as it was before or
/// after it.
class Record {
  public:
    /// Opens the file, makes it and its folder where `access` says so, and brings older tables up to date
    /// with a backup first. Refusals (stage "record"): io, record-busy, record-damaged, record-newer,
    /// not-a-record.
    [[nodiscard]] static Outcome<Record> open(const std::string& path, Access access,
                                              const RecordOptions& options = {});

    Record(Record&& other) noexcept;
    Record& operator=(Record&& other) noexcept;
    Record(const Record&) = delete;
    Record& operator=(const Record&) = delete;
    ~Record();

    [[nodiscard]] const std::string& path() const { return path_; }
    [[nodiscard]] const sql::Database& database() const { return *database_; }

  private:
    Record(std::string path, std::unique_ptr<sql::Database> database);
    [[nodiscard]] static Outcome<Record> in_memory(const std::string& path);

    std::string path_;
    std::unique_ptr<sql::Database> database_;
};

/// Where the record lies if nothing else is told: the file named by the environment variable
/// RIDGETALLY_RECORD, else ridgetally/record.db in the user's data folder (XDG Base Directory Specification
/// 0.8: $XDG_DATA_HOME where that is an absolute path, else $HOME/.local/share). Refusal: no-record-folder,
/// where neither is known.
[[nodiscard]] Outcome<std::string> usual_record_file();

}  // namespace ridgetally

#include "yarns/fault.h"

#include <new>

namespace ridgetally {

Refusal record_refusal(const sql::Fault& fault, const std::string& path) {
    const auto io = [&](const std::string& what, const std::string& hint) {
        return Refusal{record_stage, "io", path + ": " + what, hint};
    };
    switch (fault.kind()) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return {record_stage, "record-busy", path + ": another program is writing to the record",
                    "try again in a moment; nothing was changed"};
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
            return {record_stage, "record-damaged", path + ": the record is damaged (" + fault.what() + ")",
                    "the file is left as it is: keep it, and put a copy or a backup in its place"};
        case SQLITE_FULL:
            return io("the disk is full; nothing was changed", "free some space");
        case SQLITE_READONLY:
            return io("the record may not be written", "check the rights of the file and its folder");
        case SQLITE_CANTOPEN:
        case SQLITE_PERM:
        case SQLITE_AUTH:
            return io("the record cannot be opened", "check the path and the rights of the folder");
        case SQLITE_IOERR:
            return io("reading or writing the record failed; nothing was changed",
                      "check the disk, the space left and the folder");
        case SQLITE_NOMEM:
            throw std::bad_alloc();
        default:
            throw fault;
    }
}

}  // namespace ridgetally

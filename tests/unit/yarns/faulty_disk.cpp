#include "unit/yarns/faulty_disk.h"

#include <sqlite3.h>

#include <csignal>
#include <new>

// A shim of SQLite's virtual file system (sqlite.org/vfs.html) over the usual one.
namespace ridgetally {
namespace {

/// One disk a process: SQLite hands its functions no state of ours.
struct Disk {
    sqlite3_vfs* usual = nullptr;
    DiskFault fault = DiskFault::killed;
    int until_fault = 0;  ///< 0: well
    bool full = false;
};
Disk disk;

struct File {
    sqlite3_file base;
    sqlite3_file* real;
};

sqlite3_file* real_of(sqlite3_file* file) { return reinterpret_cast<File*>(file)->real; }
const sqlite3_io_methods* methods_of(sqlite3_file* file) { return real_of(file)->pMethods; }

/// Whether the change that is about to be made is the one with the fault.
bool fault_comes() {
    if (disk.until_fault == 0 || --disk.until_fault > 0) return false;
    if (disk.fault == DiskFault::full) disk.full = true;
    return true;
}

[[noreturn]] void be_killed() {
    std::raise(SIGKILL);
    for (;;) {
    }
}

/// Counts one change; the code to return where it fails.
int change() {
    if (fault_comes() && disk.fault == DiskFault::killed) be_killed();
    return SQLITE_OK;
}

int close(sqlite3_file* file) { return methods_of(file)->xClose(real_of(file)); }
int read(sqlite3_file* file, void* to, int count, sqlite3_int64 at) {
    return methods_of(file)->xRead(real_of(file), to, count, at);
}
int write(sqlite3_file* file, const void* from, int count, sqlite3_int64 at) {
    if (fault_comes() && disk.fault == DiskFault::killed) {
        (void)methods_of(file)->xWrite(real_of(file), from, count / 2, at);
        be_killed();
    }
    return disk.full ? SQLITE_FULL : methods_of(file)->xWrite(real_of(file), from, count, at);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
    change();
    return methods_of(file)->xTruncate(real_of(file), size);
}
int sync(sqlite3_file* file, int flags) {
    change();
    return methods_of(file)->xSync(real_of(file), flags);
}
int file_size(sqlite3_file* file, sqlite3_int64* size) {
    return methods_of(file)->xFileSize(real_of(file), size);
}
int lock(sqlite3_file* file, int level) { return methods_of(file)->xLock(real_of(file), level); }
int unlock(sqlite3_file* file, int level) { return methods_of(file)->xUnlock(real_of(file), level); }
int check_lock(sqlite3_file* file, int* result) {
    return methods_of(file)->xCheckReservedLock(real_of(file), result);
}
int control(sqlite3_file* file, int what, void* argument) {
    return methods_of(file)->xFileControl(real_of(file), what, argument);
}
int sector_size(sqlite3_file* file) { return methods_of(file)->xSectorSize(real_of(file)); }
int characteristics(sqlite3_file* file) { return methods_of(file)->xDeviceCharacteristics(real_of(file)); }

const sqlite3_io_methods io_methods = {
    1,       close,      read,    write,       truncate,        sync,    file_size, lock,
    unlock,  check_lock, control, sector_size, characteristics, nullptr, nullptr,   nullptr,
    nullptr, nullptr,    nullptr};

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* flags_out) {
    auto* shim =
        new (file) File{{nullptr}, reinterpret_cast<sqlite3_file*>(reinterpret_cast<File*>(file) + 1)};
    const int code = disk.usual->xOpen(disk.usual, name, shim->real, flags, flags_out);
    if (shim->real->pMethods != nullptr) shim->base.pMethods = &io_methods;
    return code;
}
int remove(sqlite3_vfs*, const char* name, int sync_folder) {
    change();
    return disk.usual->xDelete(disk.usual, name, sync_folder);
}

}  // namespace

void put_faulty_disk_under_sqlite(DiskFault fault, int at) {
    disk = {sqlite3_vfs_find(nullptr), fault, at, false};
    static sqlite3_vfs shim;
    shim = *disk.usual;
    shim.zName = "faulty";
    shim.szOsFile = static_cast<int>(sizeof(File)) + disk.usual->szOsFile;
    shim.xOpen = open;
    shim.xDelete = remove;
    sqlite3_vfs_register(&shim, 1);
}

void mend_disk() {
    disk.until_fault = 0;
    disk.full = false;
}

}  // namespace ridgetally

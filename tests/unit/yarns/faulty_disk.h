#pragma once

namespace ridgetally {

/// What happens at the chosen change to a file.
enum class DiskFault {
    killed,  ///< half of what is written lands, then the process is killed as by kill -9
    full     ///< the disk has no room from then on
};

/// Puts a layer under SQLite, in this process and for good, that counts every change to a file (writing,
/// cutting, syncing, deleting) and brings the fault at the one numbered `at`, from 1. For child processes of
/// tests.
void put_faulty_disk_under_sqlite(DiskFault fault, int at);

/// The disk is well again; counting ends.
void mend_disk();

}  // namespace ridgetally

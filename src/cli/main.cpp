#include "cli/program.h"
#include "cli/streams.h"
#include "image/memory.h"

int main(int argc, char** argv) {
    ridgetally::put_pictures_on_large_pages();
    ridgetally::guard_standard_streams();
    return static_cast<int>(ridgetally::run_program(argc, argv));
}

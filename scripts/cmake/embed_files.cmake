# Run by ridgetally_embed: writes FILES (parted by |) into the C++ source OUTPUT as arrays.
#   cmake -DOUTPUT=... -DHEADER=... -DNAMESPACE=... -DTYPE=... -DFUNCTION=... -DFILES=... -P embed_files.cmake
string(REPLACE "|" ";" files "${FILES}")
set(arrays "")
set(rows "")
set(number 0)
foreach(file IN LISTS files)
    get_filename_component(name "${file}" NAME)
    file(READ "${file}" hex HEX)
    string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${hex}")
    string(APPEND arrays "constexpr unsigned char file_${number}[] = {${bytes}0};\n")
    string(APPEND rows "    {\"${name}\", std::span<const unsigned char>(file_${number}, sizeof file_${number} - 1)},\n")
    math(EXPR number "${number} + 1")
endforeach()
file(WRITE "${OUTPUT}" "// Written by scripts/cmake/embed_files.cmake.
#include \"${HEADER}\"

namespace ${NAMESPACE} {
namespace {

${arrays}
constexpr ${TYPE} files[] = {
${rows}};

}  // namespace

std::span<const ${TYPE}> ${FUNCTION}() { return files; }

}  // namespace ${NAMESPACE}
")

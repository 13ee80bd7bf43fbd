# One CMake target a folder of src: ridgetally_layer(NAME SOURCES a.cpp ... USES other layers and libraries).
# -Wrestrict is off: GCC 12 reports concatenations of std::string at -O3 (GCC bug 105651).
set(RIDGETALLY_WARNINGS -Wall -Wextra -Wpedantic -Wshadow -Wnon-virtual-dtor -Woverloaded-virtual
    -Wformat=2 -Wimplicit-fallthrough $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict> -Werror)

function(ridgetally_flags target)
    target_compile_options(${target} PRIVATE ${RIDGETALLY_WARNINGS})
    if(RIDGETALLY_SANITIZE)
        target_compile_options(${target} PRIVATE -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
        target_link_options(${target} PUBLIC -fsanitize=address,undefined)
    endif()
    if(RIDGETALLY_FUZZ)
        target_compile_options(${target} PRIVATE -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=undefined
                                                 -fno-omit-frame-pointer)
        target_link_options(${target} PUBLIC -fsanitize=address,undefined)
    endif()
endfunction()

function(ridgetally_layer name)
    cmake_parse_arguments(ARG "" "" "SOURCES;USES" ${ARGN})
    add_library(ridgetally_${name} STATIC ${ARG_SOURCES})
    target_include_directories(ridgetally_${name} PUBLIC ${CMAKE_SOURCE_DIR}/src)
    ridgetally_flags(ridgetally_${name})
    ridgetally_link(ridgetally_${name} ${ARG_USES})
endfunction()

# Names of layers become their targets; anything else is linked as it stands.
function(ridgetally_link target)
    foreach(used ${ARGN})
        if(TARGET ridgetally_${used})
            target_link_libraries(${target} PUBLIC ridgetally_${used})
        else()
            target_link_libraries(${target} PUBLIC ${used})
        endif()
    endforeach()
endfunction()

# ridgetally_test(NAME SOURCES a_test.cpp ... USES layers [LABELS l]): one GoogleTest binary, one ctest test a case.
function(ridgetally_test name)
    cmake_parse_arguments(ARG "" "TIMEOUT" "SOURCES;USES;LABELS" ${ARGN})
    if(NOT ARG_TIMEOUT)
        set(ARG_TIMEOUT 300)
    endif()
    add_executable(test_${name} ${ARG_SOURCES})
    target_include_directories(test_${name} PRIVATE ${CMAKE_SOURCE_DIR}/src ${CMAKE_SOURCE_DIR}/tests)
    target_compile_definitions(test_${name} PRIVATE RIDGETALLY_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
    ridgetally_flags(test_${name})
    ridgetally_link(test_${name} ${ARG_USES} GTest::gtest_main)
    gtest_discover_tests(test_${name} TEST_PREFIX ${name}. DISCOVERY_TIMEOUT 60
        PROPERTIES TIMEOUT ${ARG_TIMEOUT} LABELS "${ARG_LABELS}")
endfunction()

# Every library the program links, one line of reason each.

# OpenCV: only the modules named here. A full installation brings a package file; Debian's single module
# packages do not, so the modules are looked for one by one where it is missing.
function(ridgetally_find_opencv)
    set(modules core imgproc dnn)
    find_package(OpenCV QUIET COMPONENTS ${modules})
    foreach(module ${modules})
        if(OpenCV_FOUND AND TARGET opencv_${module})
            add_library(ridgetally::opencv_${module} INTERFACE IMPORTED GLOBAL)
            set_target_properties(ridgetally::opencv_${module} PROPERTIES INTERFACE_LINK_LIBRARIES opencv_${module})
            continue()
        endif()
        find_path(OPENCV_${module}_INCLUDE opencv2/${module}.hpp PATH_SUFFIXES opencv4 REQUIRED)
        find_library(OPENCV_${module}_LIBRARY opencv_${module} REQUIRED)
        add_library(ridgetally::opencv_${module} UNKNOWN IMPORTED GLOBAL)
        set_target_properties(ridgetally::opencv_${module} PROPERTIES
            IMPORTED_LOCATION ${OPENCV_${module}_LIBRARY}
            INTERFACE_INCLUDE_DIRECTORIES ${OPENCV_${module}_INCLUDE})
    endforeach()
endfunction()
ridgetally_find_opencv()

# libjpeg-turbo, libpng, libheif, libwebp: the decoders behind every phone and browser.
find_package(JPEG REQUIRED)
find_package(PNG REQUIRED)

# A library without a package file of its own: header and library are looked for by name.
function(ridgetally_find_plain target header library)
    find_path(${target}_INCLUDE ${header} REQUIRED)
    find_library(${target}_LIBRARY ${library} REQUIRED)
    add_library(ridgetally::${target} UNKNOWN IMPORTED GLOBAL)
    set_target_properties(ridgetally::${target} PROPERTIES
        IMPORTED_LOCATION ${${target}_LIBRARY}
        INTERFACE_INCLUDE_DIRECTORIES ${${target}_INCLUDE})
endfunction()
ridgetally_find_plain(heif libheif/heif.h heif)   # HEIC/HEIF, what phones save by default
ridgetally_find_plain(webp webp/decode.h webp)    # WebP, what browsers and messengers save
ridgetally_find_plain(exif libexif/exif-data.h exif)  # EXIF: orientation and focal length
ridgetally_find_plain(nettle nettle/sha2.h nettle) # SHA-256, six times as fast as libmd (processor instructions)
ridgetally_find_plain(sqlite sqlite3.h sqlite3)    # the record: changes that are whole or not made, in one file
ridgetally_find_plain(qrencode qrencode.h qrencode)  # the QR code that a phone opens the page with
ridgetally_find_plain(httplib httplib.h cpp-httplib)  # HTTP for `serve`, a small library in plain C++
# The library's classes are laid out as it was built; neither TLS nor compression is used.
set_target_properties(ridgetally::httplib PROPERTIES INTERFACE_COMPILE_DEFINITIONS
    "CPPHTTPLIB_OPENSSL_SUPPORT;CPPHTTPLIB_ZLIB_SUPPORT;CPPHTTPLIB_BROTLI_SUPPORT")

find_package(Threads REQUIRED)
find_package(nlohmann_json REQUIRED)  # JSON in and out
find_package(CLI11 REQUIRED)          # the command line

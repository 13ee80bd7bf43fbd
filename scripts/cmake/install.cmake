# What `cmake --install` puts where, and the Debian package that CPack makes of it (scripts/package.sh).
# The program finds its facts at ../share/ridgetally/models from itself, the library of `serve` through its run path
# (src/cli/CMakeLists.txt): an installed tree may be moved as a whole.
install(TARGETS ridgetally RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(TARGETS ridgetally_web_library LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/ridgetally)
install(DIRECTORY models/ DESTINATION ${CMAKE_INSTALL_DATADIR}/ridgetally/models)
install(FILES README.md scripts/package/copyright DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(PROGRAMS scripts/measure-many.sh DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples)
install(FILES ${RIDGETALLY_GUIDES}/ridgetally.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${RIDGETALLY_GUIDES}/ridgetally.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME ridgetally)
install(FILES ${RIDGETALLY_GUIDES}/_ridgetally DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${RIDGETALLY_GUIDES}/ridgetally.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)

set(CPACK_PACKAGE_NAME ridgetally)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "Ridgetally <ridgetally@example.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "measures crochet gauge from a photo")
set(CPACK_PACKAGE_DESCRIPTION
"Lay a crochet swatch beside a ruler and take a photo: Ridgetally answers
with stitches and rows over 10 cm and over 4 in, each with its
plus-or-minus, and draws what it counted into a copy of the photo. Where a
photo does not allow an answer it says so and says what to change. It
measures crowns and hats too, plans hats, works out the yarn needed, keeps
a record of yarns and serves a page for the phone. Photos never leave the
computer.")
set(CPACK_GENERATOR DEB)
set(CPACK_STRIP_FILES ON)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION graphics)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_SUGGESTS parallel)
include(CPack)

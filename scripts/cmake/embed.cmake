# ridgetally_embed(OUTPUT.cpp HEADER NAMESPACE TYPE FUNCTION FILE...): a source in the binary folder in which FUNCTION gives
# the files as TYPE{name, bytes}. Needs CMake alone.
set(RIDGETALLY_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_DIR}/embed_files.cmake)
function(ridgetally_embed output header namespace type function)
    string(REPLACE ";" "|" files "${ARGN}")
    add_custom_command(OUTPUT ${CMAKE_CURRENT_BINARY_DIR}/${output}
        COMMAND ${CMAKE_COMMAND} -DOUTPUT=${CMAKE_CURRENT_BINARY_DIR}/${output} -DHEADER=${header} -DNAMESPACE=${namespace}
                -DTYPE=${type} -DFUNCTION=${function} "-DFILES=${files}" -P ${RIDGETALLY_EMBED_SCRIPT}
        DEPENDS ${ARGN} ${RIDGETALLY_EMBED_SCRIPT} VERBATIM)
endfunction()

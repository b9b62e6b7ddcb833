# Puts schema/database/NNNN_name.sql into the program as `store::migrations()`. Included, it adds the
# generated source to gk_store; run as a script (cmake -P) it writes that source.
if(CMAKE_SCRIPT_MODE_FILE)
  file(GLOB files "${SCHEMA}/[0-9][0-9][0-9][0-9]_*.sql")
  list(SORT files)
  # A literal of any length: the compilers take it, ISO C++ asks for 65,536 characters alone.
  set(text "#include \"store/schema/migration.h\"\n\n")
  string(APPEND text "#pragma GCC diagnostic ignored \"-Woverlength-strings\"\n\n")
  string(APPEND text "namespace gk::store {\n\n")
  string(APPEND text "const std::vector<Migration>& migrations() {\n")
  string(APPEND text "  static const std::vector<Migration> steps{\n")
  set(expected 0)
  foreach(file IN LISTS files)
    math(EXPR expected "${expected} + 1")
    get_filename_component(stem "${file}" NAME_WE)
    string(REGEX MATCH "^0*([0-9]+)_(.+)$" matched "${stem}")
    if(NOT CMAKE_MATCH_1 EQUAL expected)
      message(FATAL_ERROR "${file}: schema steps are numbered 1, 2, 3... without gaps")
    endif()
    file(READ "${file}" sql)
    string(APPEND text "      {${CMAKE_MATCH_1}, \"${CMAKE_MATCH_2}\", R\"gkschema(${sql})gkschema\"},\n")
  endforeach()
  string(APPEND text "  };\n  return steps;\n}\n\n} // namespace gk::store\n")
  file(WRITE "${OUT}" "${text}")
  return()
endif()

set(schema_folder "${PROJECT_SOURCE_DIR}/schema/database")
set(schema_source "${CMAKE_CURRENT_BINARY_DIR}/store_migrations.cpp")
file(GLOB schema_files CONFIGURE_DEPENDS "${schema_folder}/[0-9][0-9][0-9][0-9]_*.sql")
add_custom_command(
  OUTPUT "${schema_source}"
  COMMAND ${CMAKE_COMMAND} "-DSCHEMA=${schema_folder}" "-DOUT=${schema_source}"
          -P "${CMAKE_CURRENT_LIST_DIR}/embed.cmake"
  DEPENDS ${schema_files} "${CMAKE_CURRENT_LIST_DIR}/embed.cmake"
  COMMENT "Embedding the schema steps"
  VERBATIM)
target_sources(gk_store PRIVATE "${schema_source}")

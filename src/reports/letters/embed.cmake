# Puts src/reports/letters/templates/*.txt into the program as `reports::shippedTemplates()`. Included, it
# adds the generated source to gk_reports_letters; run as a script (cmake -P) it writes that source.
if(CMAKE_SCRIPT_MODE_FILE)
  file(GLOB files "${TEMPLATES}/*.txt")
  list(SORT files)
  set(text "#include \"reports/letters/letter.h\"\n\nnamespace gk::reports {\n\n")
  string(APPEND text "const std::vector<ShippedTemplate>& shippedTemplates() {\n")
  string(APPEND text "  static const std::vector<ShippedTemplate> all{\n")
  foreach(file IN LISTS files)
    get_filename_component(name "${file}" NAME)
    file(READ "${file}" letter)
    string(APPEND text "      {\"${name}\", R\"gkletter(${letter})gkletter\"},\n")
  endforeach()
  string(APPEND text "  };\n  return all;\n}\n\n} // namespace gk::reports\n")
  file(WRITE "${OUT}" "${text}")
  return()
endif()

set(template_folder "${CMAKE_CURRENT_LIST_DIR}/templates")
set(template_source "${CMAKE_CURRENT_BINARY_DIR}/reports_templates.cpp")
file(GLOB template_files CONFIGURE_DEPENDS "${template_folder}/*.txt")
add_custom_command(
  OUTPUT "${template_source}"
  COMMAND ${CMAKE_COMMAND} "-DTEMPLATES=${template_folder}" "-DOUT=${template_source}"
          -P "${CMAKE_CURRENT_LIST_DIR}/embed.cmake"
  DEPENDS ${template_files} "${CMAKE_CURRENT_LIST_DIR}/embed.cmake"
  COMMENT "Embedding the letter templates"
  VERBATIM)
target_sources(gk_reports_letters PRIVATE "${template_source}")

# Puts src/reports/sheets/templates/*.txt into the program as `reports::shippedForms()`. Included, it
# adds the generated source to gk_reports_sheets; run as a script (cmake -P) it writes that source.
if(CMAKE_SCRIPT_MODE_FILE)
  file(GLOB files "${TEMPLATES}/*.txt")
  list(SORT files)
  set(text "#include \"reports/sheets/consent_form.h\"\n\nnamespace gk::reports {\n\n")
  string(APPEND text "const std::vector<ShippedForm>& shippedForms() {\n")
  string(APPEND text "  static const std::vector<ShippedForm> all{\n")
  foreach(file IN LISTS files)
    get_filename_component(name "${file}" NAME)
    file(READ "${file}" form)
    string(APPEND text "      {\"${name}\", R\"gkform(${form})gkform\"},\n")
  endforeach()
  string(APPEND text "  };\n  return all;\n}\n\n} // namespace gk::reports\n")
  file(WRITE "${OUT}" "${text}")
  return()
endif()

set(form_folder "${CMAKE_CURRENT_LIST_DIR}/templates")
set(form_source "${CMAKE_CURRENT_BINARY_DIR}/reports_forms.cpp")
file(GLOB form_files CONFIGURE_DEPENDS "${form_folder}/*.txt")
add_custom_command(
  OUTPUT "${form_source}"
  COMMAND ${CMAKE_COMMAND} "-DTEMPLATES=${form_folder}" "-DOUT=${form_source}"
          -P "${CMAKE_CURRENT_LIST_DIR}/embed.cmake"
  DEPENDS ${form_files} "${CMAKE_CURRENT_LIST_DIR}/embed.cmake"
  COMMENT "Embedding the consent forms"
  VERBATIM)
target_sources(gk_reports_sheets PRIVATE "${form_source}")

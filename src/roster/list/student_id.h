#pragma once

#include <string>
#include <string_view>

namespace gk::roster {

/// A school's own number of a student, without what spreadsheets put around it: ="00123", '00123
/// and 123.0 are 00123, 00123 and 123.
std::string plainStudentId(std::string_view cell);

/// Whether it is no number of anybody: "#N/A", "NULL", "-", "0", and 1.00235E+09, of which the last
/// digits are gone. Of a plain one.
bool isNoStudentId(std::string_view id);

/// As two are compared: folded, without the zeros in front that spreadsheets take away.
std::string studentIdKey(std::string_view id);

} // namespace gk::roster

#pragma once

#include "roster/list/roster_columns.h"

#include <array>

namespace gk::roster {

struct Heading {
  std::string_view key; ///< as headingKey gives it
  RosterColumn column;
};

/// Headings as school offices write them, from common usage; no program's names. Sorted by column,
/// looked through in order.
inline constexpr auto knownHeadings = [] {
  using enum RosterColumn;
  // clang-format off
  return std::to_array<Heading>({
      {"number", number}, {"child number", number}, {"slip number", number},
      {"program number", number}, {"student id", studentId}, {"student id number", studentId},
      {"student number", studentId}, {"student no", studentId}, {"student", wholeName},
      {"id", studentId}, {"id number", studentId}, {"local id", studentId}, {"state id", studentId},
      {"permanent id", studentId}, {"perm id", studentId}, {"perm number", studentId},
      {"stu id", studentId}, {"sid", studentId}, {"district id", studentId}, {"name", wholeName},
      {"student name", wholeName}, {"students name", wholeName}, {"child name", wholeName},
      {"childs name", wholeName}, {"child", wholeName}, {"full name", wholeName},
      {"legal name", wholeName}, {"name last first", wholeName}, {"last first", wholeName},
      {"last name first name", wholeName}, {"student name last first", wholeName},
      {"last name first", wholeName}, {"last first middle", wholeName},
      {"nombre completo", wholeName}, {"estudiante", wholeName}, {"first", first},
      {"first name", first}, {"firstname", first}, {"fname", first}, {"f name", first},
      {"student first name", first}, {"student first", first}, {"legal first name", first},
      {"given name", first}, {"given names", first}, {"forename", first}, {"nombre", first},
      {"nombres", first}, {"middle", middle}, {"middle name", middle}, {"middlename", middle},
      {"mi", middle}, {"m i", middle}, {"middle initial", middle}, {"student middle name", middle},
      {"mname", middle}, {"last", last}, {"last name", last}, {"lastname", last}, {"lname", last},
      {"l name", last}, {"student last name", last}, {"student last", last},
      {"legal last name", last}, {"surname", last}, {"family name", last}, {"apellido", last},
      {"apellidos", last}, {"suffix", suffix}, {"name suffix", suffix}, {"generation", suffix},
      {"jr sr", suffix}, {"name used", nameUsed}, {"preferred name", nameUsed},
      {"preferred first name", nameUsed}, {"preferred", nameUsed}, {"nickname", nameUsed},
      {"goes by", nameUsed}, {"called", nameUsed}, {"known as", nameUsed},
      {"birth date", birthDate}, {"birthdate", birthDate}, {"birthday", birthDate},
      {"date of birth", birthDate}, {"dob", birthDate}, {"d o b", birthDate}, {"bdate", birthDate},
      {"b date", birthDate}, {"born", birthDate}, {"born on", birthDate},
      {"student dob", birthDate}, {"student birth date", birthDate},
      {"student birthdate", birthDate}, {"fecha de nacimiento", birthDate},
      {"nacimiento", birthDate}, {"grade", grade}, {"grade level", grade}, {"gradelevel", grade},
      {"gr", grade}, {"grd", grade}, {"grade lvl", grade}, {"gr lvl", grade},
      {"current grade", grade}, {"student grade", grade}, {"level", grade}, {"year level", grade},
      {"grado", grade}, {"room", room}, {"room number", room}, {"room no", room}, {"rm", room},
      {"rm number", room}, {"homeroom", room}, {"home room", room}, {"hr", room}, {"hmrm", room},
      {"homeroom number", room}, {"class", room}, {"classroom", room}, {"section", room},
      {"salon", room}, {"teacher", teacher}, {"teacher name", teacher},
      {"homeroom teacher", teacher}, {"home room teacher", teacher}, {"hr teacher", teacher},
      {"classroom teacher", teacher}, {"class teacher", teacher}, {"advisor", teacher},
      {"maestro", teacher}, {"maestra", teacher}, {"sex", sex}, {"gender", sex}, {"gen", sex},
      {"m f", sex}, {"f m", sex}, {"sex m f", sex}, {"gender m f", sex}, {"sexo", sex},
      {"genero", sex}, {"guardian", guardian}, {"guardian name", guardian},
      {"guardian 1", guardian}, {"guardian 1 name", guardian}, {"parent", guardian},
      {"parent name", guardian}, {"parent 1", guardian}, {"parent 1 name", guardian},
      {"parent guardian", guardian}, {"parent guardian name", guardian},
      {"parent guardian 1", guardian}, {"parents", guardian}, {"contact", guardian},
      {"contact name", guardian}, {"contact 1", guardian}, {"contact 1 name", guardian},
      {"primary contact", guardian}, {"emergency contact", guardian}, {"mother", guardian},
      {"mother name", guardian}, {"mothers name", guardian}, {"padre o tutor", guardian},
      {"tutor", guardian}, {"relation", relation}, {"relationship", relation},
      {"guardian relation", relation}, {"guardian relationship", relation},
      {"guardian 1 relationship", relation}, {"contact 1 relationship", relation},
      {"relation to student", relation}, {"relationship to student", relation}, {"phone", phone},
      {"phone number", phone}, {"phone no", phone}, {"phone 1", phone}, {"telephone", phone},
      {"tel", phone}, {"home phone", phone}, {"cell", phone}, {"cell phone", phone},
      {"mobile", phone}, {"mobile phone", phone}, {"primary phone", phone}, {"parent phone", phone},
      {"guardian phone", phone}, {"guardian 1 phone", phone}, {"parent 1 phone", phone},
      {"parent guardian phone", phone}, {"contact phone", phone}, {"contact 1 phone", phone},
      {"mother phone", phone}, {"telefono", phone}, {"guardian 2", secondGuardian},
      {"guardian 2 name", secondGuardian}, {"parent 2", secondGuardian},
      {"parent 2 name", secondGuardian}, {"second guardian", secondGuardian},
      {"second parent", secondGuardian}, {"contact 2", secondGuardian},
      {"contact 2 name", secondGuardian}, {"father", secondGuardian},
      {"father name", secondGuardian}, {"fathers name", secondGuardian},
      {"guardian 2 relationship", secondRelation}, {"second relation", secondRelation},
      {"contact 2 relationship", secondRelation}, {"phone 2", secondPhone},
      {"guardian 2 phone", secondPhone}, {"parent 2 phone", secondPhone},
      {"second phone", secondPhone}, {"other phone", secondPhone}, {"alternate phone", secondPhone},
      {"work phone", secondPhone}, {"contact 2 phone", secondPhone}, {"father phone", secondPhone},
      {"language", language}, {"home language", language}, {"primary language", language},
      {"language at home", language}, {"language spoken at home", language},
      {"preferred language", language}, {"correspondence language", language}, {"lang", language},
      {"idioma", language}, {"allergies", allergies}, {"allergy", allergies},
      {"known allergies", allergies}, {"allergy information", allergies}, {"alergias", allergies},
      {"health", health}, {"health conditions", health}, {"health condition", health},
      {"health concerns", health}, {"health alert", health}, {"health alerts", health},
      {"health notes", health}, {"medical", health}, {"medical alert", health},
      {"medical alerts", health}, {"medical conditions", health}, {"medical condition", health},
      {"medical notes", health}, {"conditions", health}, {"alert", health}, {"alerts", health},
      {"salud", health}, {"consent", consent}, {"permission", consent},
      {"permission slip", consent}, {"form returned", consent}, {"signed on", signedOn},
      {"date signed", signedOn}, {"received on", receivedOn}, {"date received", receivedOn},
      {"valid until", validUntil}, {"services", services}, {"history", history},
      {"ethnicity", ethnicity}, {"race", ethnicity}, {"race ethnicity", ethnicity},
      {"payer", payer}, {"insurance", payer}, {"no", leftOut}, {"row", leftOut}, {"count", leftOut},
      {"seq", leftOut}, {"age", leftOut}, {"school", school}, {"school name", school},
      {"building", school}, {"campus", school}, {"escuela", school}, {"school year", leftOut},
      {"address", leftOut}, {"street", leftOut},
      {"street address", leftOut}, {"city", leftOut}, {"state", leftOut}, {"zip", leftOut},
      {"zip code", leftOut}, {"email", leftOut}, {"e mail", leftOut}, {"parent email", leftOut},
      {"guardian email", leftOut}, {"bus", leftOut}, {"bus number", leftOut}, {"lunch", leftOut},
      {"entry date", leftOut}, {"enroll date", leftOut}, {"enrollment date", leftOut},
      {"counselor", leftOut}, {"notes", leftOut}, {"comments", leftOut}, {"status", status},
      {"enrollment status", status}, {"student status", status},
      {"enroll status", status},
  });
  // clang-format on
}();

} // namespace gk::roster

// SPDX-License-Identifier: MIT
// What help and manual state besides commands and options. A test holds files against what a run
// leaves and against README, and runs the examples.
#pragma once

#include <array>

#include "described/described.hpp"

namespace rangecheck::app {

constexpr std::array<Stated, 5> exit_codes{{
    {"0", "everything asked for was done"},
    {"1", "some submissions were set aside; the rest was graded"},
    {"2", "the command, a profile or the roster is wrong; nothing was graded"},
    {"3", "could not run: inbox not readable, output not writable, disk full"},
    {"4", "with --fail-below: a grade is surely below it"},
}};

/// Below the folder of `grade --out`.
constexpr std::array<Stated, 9> files_that_come_out{{
    {"students/ID/page.html",
     "the student's page: one file for phone, screen or print, no script, nothing to load"},
    {"students/ID/report.txt", "the same in plain text, 80 columns"},
    {"students/ID/result.json",
     "everything for programs, by the schema result.schema.json; angles in deg, lengths in m"},
    {"coach.html",
     "the night at a glance: students by who needs attention, with links, what is outside most "
     "often, what was set aside"},
    {"checks.csv", "one row a check, for all submissions"},
    {"submissions.csv", "one row a submission"},
    {"rangecheck.xlsx",
     "both as a workbook for spreadsheet programs, with the coach's table and what was set aside"},
    {"set-aside/ID.txt",
     "why a submission could not be graded, and whose it is where that is known"},
    {"history.sqlite",
     "every grade that was ever given, by student id, for progress; and what each was given from"},
}};

constexpr std::array<Stated, 5> examples{{
    {"rangecheck grade inbox --profiles profiles --roster roster.csv --out out",
     "Grade what is new in an inbox, by the profiles and for the students of these files"},
    {"rangecheck grade inbox --profiles profiles --roster roster.csv --out out --dry-run",
     "Only say what would be graded, and why"},
    {"rangecheck inspect inbox/s-0401-7-iron/face-on.json",
     "Say what a landmark file is and what it can show"},
    {"rangecheck progress s-0402 --out out", "Say what has changed for one student"},
    {"rangecheck pack inbox | rangecheck grade - --profiles profiles --roster roster.csv",
     "Grade records that come through a pipe, and write no file"},
}};

constexpr auto see_also =
    "README.md, which says what goes into an inbox, a roster and a profile. It is installed in "
    "share/doc/rangecheck, and the profiles that come with the program in "
    "share/rangecheck/profiles, both under the prefix, as of a package under /usr.";

}  // namespace rangecheck::app

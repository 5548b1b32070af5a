# Import of a club's own files: what is wrong in a file, where, and what would mend it.

# The file as a whole.
import-file-too-large = { $file } is larger than { $limit } MB and was not read.
import-file-old-workbook = { $file } is a workbook of the old kind, or one with a password. It cannot be read.
import-file-pdf = { $file } is a PDF. A table cannot be read out of it reliably.
import-file-empty = { $file } has nothing in it.
import-file-long-cell = Row { $row } of { $file } has a cell of more than { $limit } characters.
import-file-too-many-rows = { $file } has more than { $limit } rows.
import-file-too-many-columns = { $file } has more than { $limit } columns.
import-file-unreadable = { $file } cannot be read as text with columns: { $detail }.
import-file-open-quote = A quotation mark in { $file } is opened in row { $row } and never closed. Everything after it would run into one cell.
import-file-not-a-table = { $file } is neither a text file with columns nor a workbook.
import-file-bad-workbook = { $file } cannot be opened as a workbook: { $detail }.
import-file-unfolds = { $file } unfolds to more than { $limit } MB. It was not read.
import-kind-unclear = The headers fit more than one kind of list: { $kinds }.
import-kind-unknown = The headers fit no kind of list that can be imported.
import-no-headers = No row near the top has the headers of a { $kind } list.
import-columns-missing = This cannot be read as a { $kind } list: columns are missing.

import-reason = Imported again from { $file }.

# Notes on how the file was read.
import-note-delimiter = Columns are separated by { $delimiter ->
    [semicolon] semicolons
    [tab] tabs
    [bar] upright bars
   *[comma] commas
  }.
import-note-encoding = Letters were read as { $encoding }.
import-note-encoding-guessed = The file does not say how its letters are stored. They were read as { $encoding }: check names with accents.
import-note-sheet = Sheet “{ $sheet }” was read.
import-note-sheet-not-read = Sheet “{ $sheet }” was not read: only the first sheet with something on it is.
import-note-date-order = Read { $order ->
    [month-first] month first
   *[day-first] day first
  }, because row { $row } says { $date }.
import-note-unit-assumed = Numbers without a unit, such as in row { $row }, were read in { $unit }.
import-note-prescribed = The file does not say how many sets were prescribed. { $sets } were assumed, or more where more were done.
import-note-repeated = Says the same as row { $first }.
import-note-guardian-not-named = A telephone number without a name. It is kept as the guardian’s.
import-note-consent-items = A day of consent without its items. No consent is recorded, because nobody can tell what was agreed to.
import-note-signs-open = The red-flag questions are said to have been asked, but no answer stands here. They stay open.
import-note-nothing-measured = Nothing was measured in this row. No screening is recorded.
import-note-band-not-measured = This band has no measured force. It is listed, but no rung can use it.
import-note-cap-unseen = The file does not say that anybody looked near the end. The set is recorded as unseen and does not count towards a step up.
import-note-no-sets = No set times in this row.
import-note-left-alone = What stands on record here ({ $kind }) was taken back or erased by a person. It stays so.
import-note-corrected-by-hand = The file says what it said before, and a person has corrected that since ({ $kind }). The correction stands.

# Columns.
import-column-not-used = This column was not used.
import-column-twice = Two columns say the same: this one and “{ $other }”.
import-column-unknown-unit = “{ $unit }” in the header is not a unit the tool knows for this column.
import-column-needs-side = This column needs a side: left or right.
import-dates-contradict = The dates of this column contradict each other: { $day_first } in row { $day_first_row } has the day first, { $month_first } in row { $month_first_row } has the month first.
import-dates-ambiguous = { $date } and all other dates of this column could have the day first or the month first.
import-context-missing = The file does not say whether the sets were done after practice, rested or at home.

# Rows and cells.
import-row-too-long = This row has more cells than there are headers.
import-rows-contradict = This row and row { $first } are about the same thing and differ in: { $field }.
import-cell-broken = The formula in this cell has failed ({ $error }).
import-not-accepted = This cannot be recorded: { $detail }.
import-contested = Several records claim this place ({ $kind }). A person must settle that first.
import-takes-warning-back = This would take a warning back that stands on record ({ $kind }).
import-not-a-number = This is not a number.
import-not-a-whole-number = This must be a whole number from { $low } to { $high }.
import-number-ambiguous = This may mean { $as_decimal } or { $as_thousands }.
import-unit-missing = This number has no unit.
import-unit-unknown = “{ $unit }” is not a unit the tool knows here.
import-unit-wrong-kind = { $unit } measures something else than this column holds.
import-value-impossible = Not possible for { $label }: it must lie between { $low } and { $high } { $unit }.
import-value-unusual = Unusual for { $label }, which mostly lies between { $low } and { $high } { $unit }.
import-not-yes-or-no = This is neither yes nor no.
import-word-unknown = This word is not understood here.
import-date-missing = The date is missing.
import-date-unreadable = { $date } is not a date.
import-date-short-year = { $date } has a year of two digits. The century is not guessed.
import-date-impossible = { $date } is no day of the calendar{ $order ->
    [day-first] {" "}when the day comes first
    [month-first] {" "}when the month comes first
   *[none] {""}
  }.
import-date-serial = { $date } is a bare number where a date should stand.
import-date-to-come = { $date } is after today, { $today }.

# Who.
import-name-missing = The name is missing.
import-birth-date-missing = The birth date is missing.
import-age-impossible = This birth date makes the swimmer { $years } years old.
import-age-unusual = This birth date makes the swimmer { $years } years old.
import-swimmer-not-named = The row names nobody.
import-swimmer-unknown = Nobody on record is called { $name }.
import-swimmer-unknown-number = Nobody on record has club number { $number }.
import-swimmer-number-twice = Club number { $number } belongs to several people on record: { $names }.
import-swimmer-number-of-another = Club number { $number } belongs to { $name }, born { $year }. The row says otherwise.
import-swimmer-other-birth-date = { $name } is on record with another birth date than { $born }: { $names }.
import-swimmer-name-shared = More than one swimmer is called { $name }: { $names }.
import-swimmer-two-numbers = { $name } stands in this file under several club numbers: { $numbers }.
import-number-taken = Club number { $number } belongs to somebody else on record: { $names }.
import-number-changed = { $names } would get another club number, { $number }.
import-seasons-unreadable = This is neither a number of seasons nor “beginner” or “trained”.
import-measured-when = Body size without the day on which it was measured.
import-height-missing = Mass or sitting height without a height on the same day.
import-sitting-taller = Sitting height is not smaller than height.
import-consent-when = Consent items without the day of signing.
import-consent-by-whom = A consent without anybody who signed it: the swimmer was under 18, and no guardian is named.
import-consent-item-unknown = “{ $word }” is not a consent item.
import-intake-when = Intake answers without the day on which they were given.
import-sign-unknown = “{ $word }” is not a sign the tool knows.

# Kit.
import-mark-missing = The club’s mark on the piece is missing.
import-kit-kind-missing = The kind of piece is missing.
import-weight-without-mass = A weight without its mass.

# Past set times.
import-exercise-missing = The exercise is missing.
import-exercise-unknown = The protocol has no exercise “{ $exercise }”.
import-exercise-two = More than one exercise has this name.
import-exercise-not-timed = { $exercise } is not timed, so it has no sets.
import-rung-missing = The rung of { $exercise } is missing.
import-rung-unknown = { $exercise } has no such rung.
import-rung-two = More than one rung fits.
import-rung-bare-number = A bare number may be a level or a load.
import-rungs-contradict = The columns name two rungs: { $one } and { $other }.
import-level-not-there = There is no such level: the ladder has { $levels }.
import-scaption-too-heavy = Too heavy for scaption: the limit is { $limit } { $unit } in each hand ({ $limit_kg } kg), whoever lifts it.
import-side-missing = { $exercise } needs a side.
import-side-does-not-fit = { $exercise } is not done on this side.
import-set-number-missing = It is not clear which set this is.
import-set-unreadable = This is not understood as a set.
import-set-word = “{ $word }” is not understood in a set.
import-set-no-end = A time without the reason why the set ended. A time alone is never taken as the cap.
import-set-two-ends = Two different reasons why one set ended.
import-form-without-fault = A set that form ended needs its fault.
import-fault-unknown = The protocol has no fault “{ $fault }”.
import-cap-contradicts-time = The set is said to have reached its cap of { $cap } s, but lasted { $seconds } s.
import-set-beyond-cap = The set lasted { $seconds } s, beyond its cap of { $cap } s.
import-context-blank = The row does not say whether the session was after practice, rested or at home.
import-pain-which-side = A pain number without its shoulder.
import-pain-off-scale = Outside the pain scale, which runs from 0 to 10.
import-pain-unreadable = This is not understood as pain of the two shoulders.

# What would mend it.
import-try-save-as-xlsx = Open it in a spreadsheet, remove any password and save it as XLSX.
import-try-save-as-csv = Save the table as CSV or XLSX and import that.
import-try-closing-quote = Look for a quotation mark (") that stands alone.
import-try-splitting = Split the file.
import-try-kind = Say what it is: roster, screening, kit or sets.
import-try-adding-columns = As a { $kind } list it lacks: { $columns }.
import-try-header = Was “{ $header }” meant as “{ $meant }”?
import-try-header-row = Put one row with the names of the columns above the first row of values (row { $row }).
import-try-unit = Write the unit behind the number or into the header, for instance “Height (cm)”.
import-try-side-in-header = Write “{ $header } left” or “{ $header } right”.
import-try-iso-dates = Write dates as 2026-09-07.
import-try-dates = Say which comes first: --dates day-first or --dates month-first.
import-try-date-cells = Format the column as dates in the spreadsheet, or write dates as 2026-09-07.
import-try-four-digit-year = Write the year with four digits.
import-try-plain-number = Write it without a thousands mark, { $one }, or with a decimal more, { $other }.
import-try-quoting-decimals = A decimal comma in a file separated by commas must stand in quotation marks: "12,5". Semicolons as separators avoid it.
import-try-seconds = The spreadsheet took minutes and seconds for hours and minutes. Write seconds: 90.
import-try-accept-unusual = If it is meant, import again with --accept-unusual.
import-try-yes-no = Write yes or no, or leave the cell blank where nobody answered.
import-try-one-of = One of: { $words }.
import-try-one-row = Keep one of the two rows, or put what both say into one.
import-try-nearest = Was one of these meant? { $names }.
import-try-roster-first = Import the roster first, or add the swimmer.
import-try-name-or-number = Write the name or the club number.
import-try-number = Write the club number.
import-try-number-or-birth-date = Add the club number or the birth date to the row.
import-try-measured-on = Add a column “measured on”.
import-try-consent-items = Write “all”, “all but photo”, or a list: screening, exercise, health record, coach sees, doctor, photo, evaluation, assistant, assent.
import-try-signed-by = Add a column “consent signed by”, or the guardian’s name.
import-try-intake-date = Add a column “intake date”.
import-try-signs = Write “none” into “red flags” where all answers were no, or name the signs.
import-try-measure-band = Pull it to double its length on a scale and write the force down.
import-try-exercise-id = Write the exercise’s id.
import-try-rung-unit = Write the rung’s name, a load with its unit (16 N, 0.5 kg), or put the level into a column “level”.
import-try-rung-id = Write the rung’s name: { $rungs }.
import-try-set-cell = Write time and reason: “85 F6” (form, with its fault), “120 cap”, “85 stop”, “40 pain”, “60 kit” or “30 out”.
import-try-fault = Write the code of a fault, for instance F06.
import-try-fault-near = Write the code of a fault, for instance F06. Near it: { $near }.
import-try-seen = Add a column “seen”, or write “120 cap seen” where somebody looked.
import-try-cap-column = Correct the time or the reason, or add a column “cap” where another cap was in force.
import-try-context = Add a column “context”, or say --context after-practice, rested or home.
import-try-pain-cell = Write “L3 R0”, or “0” where neither shoulder hurt.

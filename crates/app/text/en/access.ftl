# Pages of the door: who one is, what each role is shown, accounts, devices, privacy.

# Head of every page
badge-who = { $name }, { $role }
badge-out = Sign out
badge-see-as = See it as
badge-see-as-do = Show
see-as-name-practitioner = A second practitioner
see-as-name-supervisor = A supervisor
see-as-name-head-coach = The head coach
see-as-name-administrator = The club's office
see-as-name-swimmer = A swimmer
see-as-name-guardian = A guardian

# When a door stays shut
error-sign-in-title = Sign in first
error-sign-in-message = Nothing was recorded. You are not signed in, or not for a while. Sign in in another window, come back with your browser's “back”, and send it again: what you typed is still there.
error-denied-title = Not for this role
error-denied-message = This page is there, and it is not for you to see or do. Whoever answers for the squad can say why.
error-to-sign-in = Sign in
error-to-first = To the first page

# What each role is shown
shown-full = full
shown-limited = limited
shown-not-yet = not yet
shown-out = out
seen-lede-owner = { $n } swimmers.
seen-lede-practitioner = { $n } swimmers.
seen-lede-supervisor = { $n ->
    [one] One swimmer. Doses, what stops today, whom to ring.
   *[other] { $n } swimmers. Doses, what stops today, whom to ring.
}
seen-lede-head-coach = { $n ->
    [one] One swimmer: who can do what this week.
   *[other] { $n } swimmers: who can do what this week.
}
seen-lede-administrator = { $n ->
    [one] One swimmer: roster and papers.
   *[other] { $n } swimmers: roster and papers.
}
seen-lede-swimmer = Your own record.
seen-lede-guardian = The record of whoever you answer for.
seen-caption-coach = Who can do what this week
seen-caption-supervisor = Who is here and what they may do today
seen-caption-administrator = Roster and papers
seen-name = Name
seen-squad = Squad
seen-availability = Dryland
seen-activity = Takes part
seen-review = Looked at again
seen-water = Water
seen-there = At dryland
seen-attended = { $n ->
    [0] not in the last weeks
    [one] once, on { $last }
   *[other] { $n } times, last on { $last }
}
seen-left = Left
seen-right = Right
seen-today = Today
seen-today-may = may start
seen-today-ask = Ask before the start
seen-today-over = The session is over for today
seen-today-nothing = nothing to start
seen-over-today = { $exercise } is over for today.
seen-under-13 = under 13
seen-emergency = Allergy and emergency
seen-ring = Whom to ring
seen-card = Card
seen-dose = { $sets } × up to { $cap } s, rest { $rest } s, tempo { $tempo }
seen-record = On record
seen-born = Born
seen-number = Number in the club's list
seen-gone = Left the club
seen-consent = Consent
seen-consent-until = until { $day }
seen-consent-none = none that holds
seen-accounts = Accounts
seen-accounts-none = None.
seen-coach-why = The reason is kept with whoever answers for the squad. What is decided about the water stands above; ask them before changing it.
seen-report-pain = Report pain or a sign

# Pages of the door: who one is, what each role is shown, accounts, devices, privacy.

# Head of every page
badge-who = { $name }, { $role }
badge-out = Sign out
badge-see-as = Look at it as somebody else would see it:
badge-seen-as = Seen as { $role }
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

# Navigation
spot-devices = Devices
spot-accounts = Accounts
spot-audit = Who saw what
spot-retention = How long

# What a form did
done-owner = Your account is there, and you are signed in by it.
done-password = The new password holds. Everywhere else you are signed out.
done-signed-out = You are signed out.
done-account = The account is changed.
done-paired = This device is paired.
done-device-ended = The pairing has ended. The device is locked out at its next request.
done-withdrawn = What was ticked is withdrawn as of today.

# Coming in
door-ask-name = Your name
door-ask-name-hint = As it shall stand beside what you write down.
door-ask-login = Login name
door-ask-login-hint = Letters and digits, for instance r.ahvenlaine.
door-ask-password = Password
door-ask-old-password = Password until now
door-ask-new-password = New password
door-ask-new-password-hint = At least ten characters. Three or four words that do not belong together are easy to keep.
door-ask-again = The same once more
door-ask-code = Code
door-ask-code-hint = Twelve letters and digits; dashes and capitals do not matter.
door-not-the-same = The two are not the same.
door-no-chance = The computer gives no random numbers just now. Try again.
door-first-title = The first account
door-first-lede = Nobody has an account yet. This one is the owner's: whoever answers for the squad. Everybody else is invited by it.
door-first-do = Make the account
door-sign-in-title = Sign in
door-sign-in-lede = Health records of young people lie behind this door.
door-sign-in-do = Sign in
door-tries-left = { $n ->
    [0] That was the last try for now.
    [one] One try is left.
   *[other] { $n } tries are left.
}
door-forgot = Password forgotten
door-forgot-how = Ask the owner for a new invitation. The owner makes a recovery code on this computer's command line:
door-to-invited = I have a code
door-to-pair = This is a device for the deck
door-to-install = Teach this phone to trust the laptop
door-invited-title = Set your password
door-invited-lede = With the code that you were given. It works once.
door-invited-do = Set the password
door-waits-title = Your password is set
door-waits-lede = The owner still has to confirm the account. Ask, then sign in.

# One's own account
me-title = Your account
me-lede = { $name }, { $role }
me-acts = What you saw and changed
me-password = New password
me-password-do = Change the password
me-everywhere = Sign out everywhere
me-everywhere-how = Ends every session of your account, on every computer and phone, this one too. Paired devices go on.
me-everywhere-do = Sign out everywhere

# Accounts
accounts-title = Accounts
accounts-lede = Who may come in, and as what. One account, one role.
accounts-caption = Every account ever made
accounts-invite = Invite somebody
accounts-invite-lede = Makes an account and a code. Whoever gets the code sets the password; you never know it.
accounts-invite-do = Make the account and the code
account-name = Name
account-role = Role
account-state = State
account-licence = Licence number
account-licence-hint = Only for a licensed clinician. Signing a clearance or a limit asks for it.
account-licence-day = Licence valid until
account-licence-until = { $number }, valid until { $day }
account-licence-change = Change the licence
account-whose = Whose record
account-whose-hint = A swimmer's account belongs to one swimmer, a guardian's to one or more. Leave it empty for every other role.
account-whose-heading = Swimmers
account-whose-change = Change whose record it is
account-history = The swimmer has agreed that this guardian sees the health history
account-history-hint = Asked from 14 years on.
account-closed = closed
account-invited = invited, no password yet
account-waits = waits for the owner's word
account-open = open
account-erased = erased
account-lede = { $role }: { $state }
account-made = Made
account-confirm = Confirm the account
account-confirm-how = It was made by somebody who may not see what it sees. Confirm it only if you know whose it is.
account-invite-again = Invite again
account-invite-again-how = For somebody who forgot the password, or let the code run out.
account-unlock = Lift the lock
account-unlock-how = Too many wrong tries shut the door for this account. Lift it once you know who tried.
account-close = Close the account
account-close-how = For good. Sessions end at once; what was written stays under the name.
account-close-do = Close it now
invited-title = The code for { $name }
invited-lede = Hand it over in person or by telephone, not together with the login name in one message.
invited-where = Address
invited-until = Works until
invited-once = It is shown this once. If it gets lost, invite again.

# Devices
devices-title = Devices on deck
devices-lede = A paired phone or tablet is a supervisor and nothing else, whoever holds it.
devices-pair = Pair a device
devices-none = No device was paired yet.
devices-no-lan = Only this computer is served now. For phones, start it with:
devices-install = How a phone comes to trust this laptop
device-label = Device
device-paired = Paired
device-seen = Last used
device-state = State
device-end = End the pairing
device-holds = paired
device-ended = ended
pairing-title = Pair a device
pairing-lede = Point the device's camera at the square, or type the address and the code.
pairing-open = On the device, open { $address }
pairing-type = Type the code, and a name by which you tell the device from others.
pairing-until = Works once, until { $until }.
pairing-or = Or by numbers: { $address }
pairing-qr = The address for pairing, as a square for a camera
pair-title = Pair this device
pair-lede = Type the code that stands on the laptop's screen.
pair-label = Name of this device
pair-label-hint = For instance: blue phone of the deck bag.
pair-do = Pair

# Setting up a phone
install-title = Trust this laptop
install-lede = Once for each phone, three minutes.
install-first-warning = The first time, the phone's browser warns that it does not know the laptop. Go on to this page only, take the certificate, and follow the steps: afterwards there is no warning any more.
install-certificate = certificate
install-qr = The address of this page, as a square for a camera
install-own = The club uses a certificate of its own. Open { $address }: there must be no warning, and there is nothing to install.

# Consent, archive, erasure
privacy-consent-link = Consent, archive, who saw it
consent-title = Consent, { $name }
consent-lede = Each item stands for itself. Without the first three nobody takes part; refusing any other keeps nobody out.
consent-caption = What is agreed to today
consent-item = Item
consent-stands = Today
consent-signer = Signed by
consent-version = Text
consent-until = Until
consent-granted = agreed
consent-not-granted = not agreed
consent-record = Record a signed paper
consent-withdraw = Withdraw
consent-withdraw-how = Acts today. What was agreed to before stays to be seen; what needs it stops at once.
consent-withdraw-what = What is withdrawn
consent-withdraw-all = everything
consent-withdraw-do = Withdraw what is ticked
consent-nothing-ticked = Nothing was ticked, so nothing is withdrawn.
consent-papers = Papers
consent-paper = { $day }: { $signer }, { $relation }; text { $version }; until { $until }.
consent-withdrawn-on = Withdrawn on { $day }.
record-whole = The record as a whole
archive-do = Hand out the whole record (zip)
erase-link = Erase this person
erase-title = Erase { $name }
erase-lede = This cannot be undone.
erase-what = Everything that was ever recorded about this person goes: sets, pain, screenings, letters, notes, papers. Accounts that belong only to this person are closed.
erase-stays = What stays: that somebody was erased, when, by whom and on which ground. The log still verifies and counts still match.
erase-elsewhere = Backups, archives and papers made before still hold the record. Remove them too.
erase-full-name = The name on record:
erase-ground = On which ground
erase-ground-person-asked = The person asked for it
erase-ground-guardian-asked = A guardian asked for it
erase-ground-retention-ended = The time for which the club keeps records has passed
erase-ground-entered-by-mistake = Entered by mistake
erase-name = Type the full name
erase-name-hint = Exactly as it stands above.
erase-do = Erase for good
erased-title = Erased
erased-facts = { $n ->
    [one] One entry is gone.
   *[other] { $n } entries are gone.
}
erased-accounts = { $n ->
    [0] No account was closed.
    [one] One account was closed.
   *[other] { $n } accounts were closed.
}
erased-not-scrubbed = The file could not be rewritten just now, so freed pages may still hold the text. The next erasure does it.
retention-title = How long records are kept
retention-lede = Law differs by country, so nothing is settled until you settle it. A record whose time has passed is named here; erasing it is always a person's act.
retention-years = Years after the swimmer has left
retention-age = And not before this age
retention-age-hint = Where records of minors must outlast their majority. Leave it empty otherwise.
retention-overdue = Time has passed
retention-not-settled = Nothing is settled yet, so nobody is named.
retention-nobody = Nobody.
retention-since = left { $left }, since { $since }

# Audit
audit-title = Who saw and changed what
audit-title-record = Who saw and changed it: { $name }
audit-lede = The newest first. Looking at the same again within ten minutes is one look.
audit-link = Who saw and changed this record
audit-by = By
audit-about = About
audit-when = When
audit-who = Who
audit-did = Did
audit-what = What
audit-whom = About whom
audit-nobody = somebody unknown
audit-laptop = at the laptop
audit-this-record = this record
audit-everybody = everybody
audit-none = Nothing yet.
audit-older = Older

# A certificate that the club brings
certificate-unread = the certificate cannot be read ({ $detail })
certificate-key-unread = the key cannot be read ({ $detail })
certificate-mismatch = certificate and key do not belong together
certificate-not-yet = it holds only from { $day }
certificate-ended = it has ended on { $day }
certificate-name = it does not hold for { $host }, but for { $hosts }

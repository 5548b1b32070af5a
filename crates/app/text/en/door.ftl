# The door: signing in, accounts, codes, certificates, privacy, and what each role is told.

# Signing in
door-wrong = Name or password is not right, or the account is not open yet.
door-wrong-hint = Try again slowly. After five wrong tries the door stays shut for a quarter of an hour.
door-locked = Too many tries. The door opens again at { $time }.
door-locked-hint = Nothing is lost. If you forgot the password, ask for a recovery code at the laptop.
door-password-short = A password has at least { $fewest } characters.
door-password-long = A password has at most 256 bytes.
door-password-common = This is among the first things somebody would try.
door-password-personal = This is mostly a name that belongs to you or the club.
door-password-repeats = This repeats itself too much.
door-password-hint = Three or four words that do not belong together are easy to keep in mind and hard to guess.

# Accounts
door-not-first = There are accounts already. Ask the owner for an invitation.
door-no-account = There is no such account.
door-last-owner = This is the last owner's account, so it stays open.
door-last-owner-hint = Make another owner first.
door-login-shape = A login name has 1 to 64 letters, digits and the signs . - _ @ +.
door-login-taken = Somebody else has this login name.
door-name-shape = An account carries the name of a person, up to 120 characters.
door-licence-number = A licence has a number.
door-bound-shape = A swimmer's account belongs to one swimmer, a guardian's to one or more, any other to none.

# Codes and devices
door-code-wrong = This code is not right, is used up, or has ended.
door-code-wrong-hint = Check name and code. If that does not help, ask for a new code; after five wrong tries a code ends.
door-label-shape = Give the device a name of up to 60 characters, so that it can be told from others.
door-no-device = There is no such paired device, or its pairing has ended.

# Where pages are served
door-listen-no-accounts = Others could reach the records at this address, and nobody has an account yet.
door-listen-no-accounts-hint = Make the owner's account on this computer first.
door-listen-no-tls = Others could reach the records at this address without encryption.
door-listen-no-tls-hint = Serve with the laptop's own certificate or the club's.
door-listen-public = This address is not one of a private network.
door-listen-public-hint = Use an address of the club's own network.

# Not allowed
denied-role = This is not for your role.
denied-not-yours = This is not your record.
denied-of-age = The swimmer has come of age and decides who sees the record.
denied-not-agreed = The swimmer has not agreed that this is shown to you.
denied-licence = This takes a licence that is valid today.
denied-owner-only = Only an owner can do this.
denied-give-role = Only an owner can make or change an account of this role.
denied-give-licence = Only an owner records a licence.

# Roles
role-owner = owner
role-practitioner = practitioner
role-supervisor = supervisor
role-head-coach = head coach
role-administrator = club administrator
role-swimmer = swimmer
role-guardian = guardian
role-activity-all = takes part in all of the dryland
role-activity-part = takes part in some of the dryland
role-activity-none = no dryland for now
role-water-ask = not decided, ask { $name }

# Things, as the permission table and the audit name them
thing-roster = name and squad
thing-personal = date of birth, contacts, club number
thing-availability = availability and how much dryland it leaves
thing-water-advice = what was decided about the water
thing-attendance = sessions attended
thing-card = card: doses, rungs, set times, faults
thing-today = may start today, what stops today
thing-emergency = allergy and emergency line, whom to ring
thing-pain = pain numbers and signs
thing-health = why something is held back
thing-screening = values of screenings and re-tests
thing-history = intake answers, illnesses, growth, laxity
thing-letters = referrals, clearances, signed limits
thing-notes = free-text notes and reasons of overrides
thing-consent = which consents were signed, by whom, until when
thing-calendar = practices, meets, periods
thing-kit = kit and inspections
thing-protocol = the protocol with its sources
thing-counts = counts of the season, without names
thing-accounts = accounts and paired devices
thing-audit-of-record = who saw and changed one record
thing-audit = everything that anybody saw and changed
thing-record-session = record sets, faults, attendance
thing-report-pain = report pain, a sign, an answer before the session
thing-decide = confirm or override a proposal
thing-settle = confirm an end, write water advice, close what is due
thing-sign-letter = sign a clearance or limit in one's own name
thing-file-letter = file a letter that somebody licensed has signed
thing-examine = record screening, intake, growth
thing-edit-roster = change the roster
thing-record-consent = record a consent
thing-withdraw-consent = withdraw a consent
thing-edit-calendar = change practices, meets, periods
thing-edit-kit = change kit, record an inspection
thing-import = import files
thing-edit-protocol = change the protocol
thing-manage-accounts = make, invite, close accounts
thing-pair-device = pair a deck device
thing-end-device = end a pairing
thing-backup = make a backup into the club's folder
thing-archive = hand out one person's whole record
thing-erase = erase one person
thing-set-retention = settle for how long records are kept

# Acts, as the audit names them
act-saw = saw
act-changed = recorded
act-withdrew = withdrew a consent
act-archived = handed out the whole record
act-erased = erased
act-set-retention = settled for how long records are kept
act-signed-in = signed in
act-signed-out = signed out
act-signed-out-everywhere = signed out everywhere
act-refused-sign-in = was refused at the door
act-locked = locked the door by too many tries
act-lifted-lock = lifted a lock
act-refused-code = typed a wrong code
act-spent-code = used up a code by wrong tries
act-made-account = made an account
act-confirmed-account = confirmed an account
act-changed-account = changed whom an account belongs to
act-changed-licence = changed a licence
act-closed-account = closed an account
act-invited = invited again
act-made-recovery = made a recovery code
act-set-password = set a password by a code
act-changed-password = changed the password
act-opened-pairing = opened a pairing
act-paired = paired a device
act-ended-pairing = ended a pairing

# Consent, archive, erasure, retention
privacy-withdrawn = withdrawn
privacy-nothing-to-withdraw = Nothing on record grants this any more.
privacy-erase-name = Type the full name exactly as it is on record.
privacy-erase-name-hint = An erasure cannot be undone. Backups, archives and papers made before still hold the record.
privacy-retention-range = Give 0 to 50 years after leaving, and an age from 18 to 60 or none.
archive-title = Everything on record about { $name }
archive-order = In the order in which it arrived. What was corrected stays to be seen, with the reason.
archive-holds = This holds
archive-contested = This holds, and a person must settle a contradiction
archive-replaced = Corrected since: no longer holds
archive-takes-back = Takes an earlier entry back
archive-waiting = Came under a number that was taken, and waits for a person
archive-by = Written by { $author }, on { $device }.
archive-corrects = Stands in the place of an earlier entry: { $reason }
archive-seen = Who saw and changed it
archive-read-me =
    Everything on record about { $name }, made on { $made }: { $facts } entries.

    record.html             to read in any browser
    record.json             the same for another program
    seen-and-changed.json   who saw and changed it
    protocols/              the rules that decisions were taken by, as they were then

    This is a copy of health data. Keep it as you would keep a letter from a doctor.
archive-kind-swimmer = Who the swimmer is
archive-kind-consent = Consent
archive-kind-intake = Intake answers
archive-kind-screening = Screening
archive-kind-growth = Growth
archive-kind-arm-lengths = Lengths of the arm
archive-kind-pain = Pain and signs
archive-kind-illness = Illness
archive-kind-absence = Absence
archive-kind-ban = “Do not train” from outside
archive-kind-referral = Referral
archive-kind-clearance = Clearance
archive-kind-limit = Signed limit
archive-kind-reopening = End of “out today”
archive-kind-water-advice = Decided about the water
archive-kind-guardian-told = Guardian told
archive-kind-talk = Talk
archive-kind-taught = Exercise taught
archive-kind-sign-off = Exercise signed off
archive-kind-session = Session
archive-kind-set = Set
archive-kind-decision = Decision
archive-kind-water-week = Kilometres in a week

# Setting up a phone
install-why = This phone will talk to the club's laptop only once it trusts it. That is done once, and takes three minutes.
install-limits = The laptop's certificate can vouch for nothing but names that end in .local and addresses inside a private network. Trusting it gives nobody a way into your mail, your bank or any other page.
install-compare = Before you trust it, compare the fingerprint on the phone with the one on the laptop's screen: { $fingerprint }.
install-share-title = Phones with a share sheet (a square with an arrow) in their browser
install-share-open = Point the camera at the code on the laptop and open the page in the phone's own browser.
install-share-allow = Tap “certificate” and allow the download.
install-share-profile = Open the phone's settings. Near the top stands “Profile downloaded”: tap it, tap “Install”, and confirm with your unlock code.
install-share-trust = In the settings go to General, About, Certificate trust. Switch the club's certificate on.
install-share-home = Back in the browser open the share sheet and choose “Add to home screen”.
install-drawer-title = Phones that keep their apps in a drawer
install-drawer-open = Point the camera at the code on the laptop, open the page and tap “certificate”, so that the file is saved.
install-drawer-settings = Open the phone's settings and search for “CA certificate”. It stands under Security, often below “Encryption and credentials” or “More”.
install-drawer-choose = Choose “Install anyway” and the file you have just saved.
install-drawer-warn = From then on the phone may say that the network could be watched. It says so of every certificate that a person has installed; this one reaches no further than stands above.
install-drawer-home = In the browser's menu choose “Add to home screen”.
install-check = Open { $address }. There must be no warning. If there is one, stop and ask at the laptop.
install-not-found = If the phone does not find the name, use the address with numbers on the laptop's screen. What a phone has kept belongs to the name it was opened by, so stay with one of the two.
install-remove = When the phone is no longer used on deck: end its pairing on the laptop, and remove the certificate in the phone's settings at the place where you installed it.

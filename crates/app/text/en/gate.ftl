# Reasons of the gate. Values arrive ready for the reader: numbers with their unit, dates, names, sides.

## Papers
gate-consent-never = No consent that counts has been signed.
gate-consent-item = Consent of { $signed } does not grant this: { $item }.
gate-consent-expired = Consent signed on { $signed } ran out on { $ended }.
gate-consent-withdrawn = Consent was taken back on { $withdrawn }.
gate-consent-own = From { $from } on the swimmer's own consent is needed; only a guardian has signed.
gate-join-without-record = The club lets swimmers join meanwhile, without any record. Nothing is measured, timed or written down.
gate-intake-open = Intake question without an answer: { $question }. A missing answer is not a no.
gate-dislocation-ever = At intake on { $asked }: a shoulder has come out or slipped before. No letter has cleared it since.
gate-operation-ever = At intake on { $asked }: a shoulder has been operated on. No letter has cleared it since.
gate-screening-missing = No screening is on record.
gate-watch-pain-history = At intake on { $asked }: shoulder pain in the 12 months before. Ask more often; it holds nobody back.

## From others
gate-ban-until = Told not to train from { $from } until { $until } by { $by }.
gate-ban-open = Told not to train since { $from } by { $by }; no end is written down.
gate-fever = Ill with fever since { $from }. Two days without symptoms come first.
gate-fever-wait = Had a fever; without symptoms since { $free }. Back on { $back }.
gate-referral-open = Referred on { $opened }; no answer yet.
gate-limit-unlicensed = The limit that { $name } signed on { $signed } came without a licence valid that day. It still restricts, but permits nothing.
gate-injury-without-letter = Away injured since { $from }, and no letter from a licensed clinician since.

## Pain
gate-pain-one-sided = Pain { $pain } in the { $side } shoulder, last spoken on { $last }. This shoulder is out today until a person reopens it.
gate-pain-out = Pain { $pain }, last spoken on { $last }. Out of shoulder dryland until a person reopens it.
gate-pain-high = Pain { $pain } in the { $side } shoulder, first on { $first }. Somebody licensed must look before it is loaded again.
gate-set-ended-for-pain = A set of { $exercise } ended for pain in the { $side } shoulder on { $last }, and no number was written down.
gate-test-ended-for-pain = A test of the { $side } shoulder was stopped for pain on { $last }.
gate-pain-second-event = Second pain event: { $first }, and again on { $since }. The { $side } shoulder needs a look.
gate-pain-staying = Pain in the { $side } shoulder since { $first }, and nobody has called it gone. Referred since { $since }.
gate-pain-covered = Pain { $pain } in the { $side } shoulder is covered by a signed limit.
gate-ache-both-sides = Ache { $pain } on both sides. Goes on; nothing steps up today, and the warm-up is longer.
gate-pain-in-set = Pain { $pain } during { $exercise }. This exercise stops today.
gate-pain-twice = One-sided pain on { $first } and again on { $second }. Talk about it.
gate-no-up-event = Pain event on { $date }: no steps up before { $until }.
gate-no-up-one-sided = One-sided pain on { $date }: no steps up before { $until }.
gate-no-up-morning = Pain the morning of { $date }: no steps up before { $until }.
gate-no-up-ache = Ache on { $date }: no steps up before { $until }.
gate-pain-free-days = No pain from { $first } to { $last }, both shoulders answered every day. A person may end it.

## Signs
gate-sign-emergency = Emergency sign on { $since }: { $sign }. Stop everything; only a clinician's letter ends it.
gate-emergency-person = While an emergency sign of { $since } stands, nothing is trained.
gate-sign-same-day = Sign on { $since }: { $sign }. To be seen the same day, at the latest the next morning.
gate-sign-within-a-week = Sign on { $since }: { $sign }. To be seen within a week.
gate-sign-talk = Told on { $since }: { $sign }. Talk about it.
gate-sign-talk-private = Told on { $since }: { $sign }. A talk in confidence, and a doctor.

## Screening
gate-hollow = A hollow was seen behind the { $side } shoulder on { $date }. To be seen within a week, before it is loaded.
gate-strength-gap-refer = External rotation of the { $side } arm is { $difference } weaker ({ $weaker } against { $stronger }, on { $date }); over { $limit } a clinician looks first.
gate-strength-gap = External rotation of the { $side } arm is { $difference } weaker (on { $date }); over { $limit } and over the test's own error of { $error }, so this arm decides.
gate-ratio-low = Out-turning over in-turning strength of the { $side } arm is { $ratio } (on { $date }), under { $limit }. External rotation comes first.
gate-ratio-unknown = The strength ratio of the { $side } arm is not known: one of the two strengths was not measured.
gate-range-gap = { $measure } differs by { $difference } degrees between the sides (on { $date }); the { $side } side is the tighter one.

## Growth and age
gate-growth-fast = Grew { $velocity } cm a year, give or take { $error }, from { $from } to { $to }; the limit is { $limit }.
gate-growth-spurt = About { $offset } years from the height spurt (on { $date }), within { $window } years of it. An estimate, no more.
gate-growth-reported = Told on { $date }: { $sign }. Read as a sign of fast growth.
gate-youth = { $age } years old: under 14, the careful count applies and a person confirms every step.
gate-newcomer = In the programme since { $started }; the careful count applies until { $until }.
gate-newcomer-not-begun = The programme has not begun for this swimmer; the careful count applies.

## Laxity
gate-lax = Beighton score { $score } of 9 on { $date }; from { $cut } on the hypermobile track applies.
gate-slipped-once = A shoulder came out or slipped once (on record since { $date }): the hypermobile track applies.

## Return
gate-return-not-met = Return condition not met: { $condition } ({ $value }).
gate-return-not-recorded = Return condition not written down: { $condition }.

## Water
gate-water-jump = { $km } km in the week from { $from }, after a mean of { $mean } km: { $share } of the usual. Over { $limit } it is worth a talk, nothing more.

## Availability
availability-full = full
availability-limited = limited
availability-not-yet = not yet
availability-out-today = out today
availability-out-referred = out, referred

## What ends a hold
ends-by-record = the missing paper, answer or measurement
ends-by-date = a date that passes
ends-by-practitioner = the practitioner's confirmation
ends-by-clinician = a licensed clinician's letter

## Urgency
urgency-talk = a talk
urgency-within-a-week = within a week
urgency-same-day = the same day
urgency-emergency = emergency
urgency-talk-do = Talk with the swimmer this week, in private.
urgency-within-a-week-do = No shoulder dryland. Write the letter and see that somebody licensed looks within a week.
urgency-same-day-do = Stop the session. Tell the guardian. Somebody licensed looks today, at the latest tomorrow morning; mark the letter urgent.
urgency-emergency-do = Stop everything. Ring the emergency number, stay with the swimmer, tell the guardian, write down what was seen.

## Consent items
consent-item-screening = screening by touch and measurement
consent-item-exercise = the exercise programme
consent-item-health-record = keeping health records
consent-item-coach-sees = what the coach may see
consent-item-doctor = sharing with a doctor
consent-item-photo = photo and film
consent-item-evaluation = use without a name for evaluation
consent-item-assistant = help by an assistant
consent-item-assent = the child's own agreement

## Intake questions
intake-question-pain-12-months = shoulder pain in the last 12 months
intake-question-dislocation-or-slipping = a shoulder that came out or slipped, ever
intake-question-operation = a shoulder operation, ever
intake-question-signs = the list of warning signs

## Return conditions
return-condition-daily-life = no pain in daily life
return-condition-range = range within 10 degrees of the other side
return-condition-strength = strength at least 90 % of the other side
return-condition-water = a week or more at half the usual water, without pain
return-condition-no = no

## Measures
measure-shoulder_ir_rom = Internal rotation range
measure-horizontal_adduction = Cross-body range

## Signs, as asked and shown
sign-arm-swollen-blue-or-cold = arm suddenly swollen, heavy, blue, or cold and pale
sign-visible-deformity = shoulder looks out of shape
sign-shoulder-still-out = shoulder came out and is still out
sign-loss-of-feeling-after-fall = no feeling or no power after a fall
sign-neck-injury = neck hurt in a fall or knock
sign-chest-pain = chest pain
sign-breathless = breathless beyond the effort
sign-fainting = fainted or nearly fainted
sign-hot-joint-with-fever = hot joint and fever
sign-fall-with-crack = fall or pull with a crack
sign-cannot-lift-arm = cannot lift the arm
sign-came-out-and-back = shoulder came out and went back
sign-sudden-weakness = sudden weakness
sign-unwell-night-sweats = shoulder pain and unwell: night sweats or losing weight
sign-night-pain = pain at night
sign-rest-pain = pain at rest
sign-tingling = tingling or numbness
sign-painless-weakness = weak without pain
sign-visible-hollow = hollow behind the shoulder
sign-slipping = shoulder slips or feels as if it might
sign-outer-arm-bone-pain = pain on the outer upper arm bone
sign-swelling = swelling
sign-changed-stroke = pain that changes the stroke
sign-lost-range = clearly less movement on one side
sign-ache-over-72-hours = ache on both sides for more than three days
sign-clumsiness = suddenly clumsy
sign-tendon-site-pain = pain where a tendon meets the bone
sign-poor-sleep = sleeps badly and makes no progress
sign-worry = worried, or the parents are
sign-under-eating = eats too little, misses periods, or is often ill

# What is due. Values arrive ready for the reader: dates, names, words.

## After pain
due-next-morning = Ask how the shoulder is the morning after { $date }.
due-seven-days = Ask again seven days after the pain event of { $date }.
due-guardian-event = Tell the guardian today: pain event on { $date }.
due-guardian-sign = Tell the guardian today: warning sign on { $date }.
due-guardian-twice = Tell the guardian today: one-sided pain again, on { $date }.
due-confirm-end = No pain from { $first } to { $last }. Confirm or refuse the end of "out today".
due-water = What is allowed in the water is not decided. Decide it and write it for the coach.

## Letters
due-write-referral = Write the referral ({ $urgency }). Held since { $since }; reasons on record: { $reasons }.
due-referral-answer = The referral of { $opened } has no answer. Ask for one.
due-limit-ends = The limit that { $name } signed ends on { $until }. Ask what comes after it.

## Papers
due-consent-never = Get the consent signed.
due-consent-item = Ask about consent to { $item }.
due-consent-expired = Consent ran out on { $ended }. Ask for a new one.
due-consent-ends = Consent ends on { $last }. Ask for a new one.
due-consent-own = The swimmer's own consent is needed from { $from } on.
due-intake-never = Ask the intake questions.
due-intake-question = Ask the intake question about { $question }.

## Measuring
due-screening-never = Screen this swimmer.
due-growth-never = Measure height, sitting height and mass for the first time.
due-growth = Measure height, sitting height and mass; the last time was { $last }.
due-growth-hold = Measure again, six weeks into the growth hold; the last time was { $last }.
due-retest = Re-test; the last screening was on { $last }.
due-retest-weaker-arm = Test the strength of both arms again; the last test was on { $last }.

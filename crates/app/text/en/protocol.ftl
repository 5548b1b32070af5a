### What can be wrong with a protocol file, and what to do about it. Each message has a hint of the same name.

protocol-not-text = The file is not text in UTF-8 from here on.
protocol-not-text-hint = Save it as plain text in UTF-8. A word processor's or a spreadsheet's own format cannot be read.

protocol-syntax = This line cannot be read: { $detail }.
protocol-syntax-hint = Texts stand in quotation marks, lists in square brackets, one key a line. The rest of the file was read all the same; what seemed missing is not listed until this line is mended.

protocol-unknown-key = “{ $key }” is not known in { $within }.
protocol-unknown-key-hint = { $near ->
    [none] Known there: { $allowed }.
   *[other] Did you mean “{ $near }”?
}

protocol-missing-key = “{ $key }” is missing in { $within }.
protocol-missing-key-hint = Add it; the shipped protocol shows how. Nothing is filled in silently, so that every number in force stands in the file.

protocol-missing-source = { $within } is marked as published, but names no source.
protocol-missing-source-hint = Add source = "key" from the list of references, or choose the mark that fits: from memory, core practice, common practice, computed.

protocol-needless-source = { $within } is marked as { $mark }, yet names a source.
protocol-needless-source-hint = Only “published” and “computed” stand on a source. Change the mark, or take the source away: it would claim more ground than there is.

protocol-wrong-type = “{ $key }” should be { $wanted ->
    [text] a text in quotation marks
    [texts] a list of texts
    [number] a number
    [numbers] a list of numbers
    [flag] true or false
    [table] a table with keys
    [tables] a list of tables
    [whole-or-off] a whole number or "off"
   *[other] { $wanted }
}, but is { $found ->
    [string] a text
    [integer] a whole number
    [float] a number
    [boolean] true or false
    [datetime] a date or time
    [array] a list
    [table] a table
   *[other] { $found }
}.
protocol-wrong-type-hint = Compare the line with the shipped protocol.

protocol-empty = “{ $key }” in { $within } is empty.
protocol-empty-hint = Say something here: the sheet and the deck show it as it stands.

protocol-not-finite = “{ $key }” is not a finite number.
protocol-not-finite-hint = Write an ordinary number, with a point before the decimals.

protocol-not-whole = “{ $key }” is { $value }, but only whole numbers make sense here.
protocol-not-whole-hint = Round it yourself, so that the number in force is one you chose.

protocol-wrong-count = How many numbers “{ $key }” should hold: { $wanted }. It holds { $found }.
protocol-wrong-count-hint = Compare the line with the shipped protocol.

protocol-out-of-range = “{ $key }” is { $value }; allowed is { $allowed }.
protocol-out-of-range-hint = Choose a value within these limits. They are the trade's own, or the widest that practice describes.

protocol-fixed-limit = “{ $key }” is { $value }; allowed is { $allowed }, and that is a fixed safety limit.
protocol-fixed-limit-hint = A fixed limit can be tightened, never loosened.

protocol-not-ascending = The numbers of “{ $key }” should rise from left to right.
protocol-not-ascending-hint = Put the smaller number first.

protocol-disagree = “{ $key }” is { $value }, which does not go with “{ $other }”, { $limit }.
protocol-disagree-hint = The first may not pass the second. Lower “{ $key }” or raise “{ $other }”.

protocol-unknown-word = “{ $word }” is not a word that “{ $key }” may hold.
protocol-unknown-word-hint = { $near ->
    [none] It may hold: { $allowed }.
   *[other] Did you mean “{ $near }”? It may hold: { $allowed }.
}

protocol-unknown-name = There is no { $kind ->
    [source] source
    [fault] fault
    [rung] rung
    [exercise] exercise
   *[other] { $kind }
} “{ $name }”.
protocol-unknown-name-hint = { $near ->
    [none] Add it to its list, or name one that is there.
   *[other] Did you mean “{ $near }”?
}

protocol-duplicate = The { $kind ->
    [source] source
    [fault] fault
    [rung] rung
    [exercise] exercise
    [group] group
   *[other] { $kind }
} “{ $name }” stands here a second time; the first is in line { $first }.
protocol-duplicate-hint = Give it another name or take one away. Names already used in records must keep their meaning.

protocol-bad-id = “{ $name }” cannot be a name.
protocol-bad-id-hint = Use letters, digits, hyphens and underscores only: names go into records and addresses.

protocol-bad-tempo = “{ $value }” is not a tempo.
protocol-bad-tempo-hint = Write seconds out, held and back, as in 2/0/2; or hold; or circles 15 for a change of direction every 15 seconds.

protocol-tempo-limit = A phase of { $value } s in { $where } is outside { $allowed }.
protocol-tempo-limit-hint = Weights take 2 to 4 s each way, bands 1 to 3 s, a held plus 1 to 3 s, circles turn every 10 to 30 s. Faster than that, the load is swung or whipped instead of carried.

protocol-ladder-empty = { $exercise } is timed but has no rungs.
protocol-ladder-empty-hint = Add at least one rung, or set counting = "plain" with a plain_dose.

protocol-ladder-on-plain = { $exercise } has a plain dose, so its rungs would never be used.
protocol-ladder-on-plain-hint = Take the ladder away, or the line counting = "plain".

protocol-rung-load = { $where } { $found ->
    [none] does not say what resists
   *[several] says in more than one way what resists
}.
protocol-rung-load-hint = Give exactly one: band_n, band_lbf, weight_kg, weight_lb, load = "unloaded" or load = "position".

protocol-load-order = { $where } is not heavier than { $before }, which stands before it.
protocol-load-order-hint = Rungs stand from easiest to hardest, so that one step up is always more. A harder way of doing the same is marked not_heavier = true.

protocol-heavier = { $where } is marked as not heavier, but carries more than any rung before it.
protocol-heavier-hint = Lower its load to that of the heaviest rung, or take the mark away.

protocol-load-tag = { $where } works with a { $tag ->
    [band] band
    [weight] weight
   *[other] { $tag }
} but does not have the tag “{ $tag }”.
protocol-load-tag-hint = Add the tag to the exercise or the rung: limits and the pain rules lock by tags, and would pass this rung by.

protocol-scaption = { $where }: { $kg } kg ({ $lb } lb) in a hand is above the limit of { $limit-kg } kg ({ $limit-lb } lb).
protocol-scaption-hint = The limit includes its own value and is fixed at 2.2 kg: a weight raised on a long arm grows heavier for the cuff than it looks. Beyond it only slower or steadier, never heavier. 5 lb is already too much.

protocol-prone = { $where }: { $kg } kg in a prone lift is above { $limit-kg } kg, the limit under 15.
protocol-prone-hint = Lower it, or offer the rung from 15 years with from_age = 15.

protocol-ninety = { $where } bends elbow and upper arm to ninety degrees each, but is offered under 15.
protocol-ninety-hint = Add from_age = 15. The position strains the front of the shoulder and its growth plate.

protocol-closed-chain = { $exercise } bears weight on the hands but declares that it loads no shoulder.
protocol-closed-chain-hint = Set loads = "both-shoulders": supporting arms count. Otherwise the gate would let a sore shoulder carry the body.

protocol-loaded-no-shoulder = { $where } gives the arm a load, but the exercise declares that it loads no shoulder.
protocol-loaded-no-shoulder-hint = Declare the shoulders that carry it in “loads”, or take the load away.

protocol-loads-contradict = { $exercise } works with arms = "{ $arms }" but declares loads = "{ $loads }".
protocol-loads-contradict-hint = One working arm loads its own shoulder or both; two working arms load both; midline exercises load both or none.

protocol-stretch-on-track = { $exercise } stretches or works at the end of the range, but is not left out of the hypermobile track.
protocol-stretch-on-track-hint = Add hypermobile = { "{" } left_out = true { "}" }: a loose joint is not stretched.

protocol-track-order = The hypermobile track of { $exercise } would begin at { $start }, above its top { $top }.
protocol-track-order-hint = Swap them, or leave one away.

protocol-own-cap = The longest set of { $exercise } is { $value } s, above the protocol's { $limit } s.
protocol-own-cap-hint = An exercise's own cap can only be shorter than cap_s.

protocol-pain-as-fault = { $exercise } lists pain among its form faults.
protocol-pain-as-fault-hint = Take F20 away: pain never ends a set as “form”. It ends it as “pain”, and the pain rules follow.

protocol-start-missing = The start table has no row for “{ $group }”.
protocol-start-missing-hint = Add it, so that no newcomer is without a place to begin.

protocol-start-plain = { $exercise } has a plain dose and no rungs, so it cannot begin on one.
protocol-start-plain-hint = Take it out of this row.

protocol-figure-contact = “{ $words }” is not a contact of a drawing.
protocol-figure-contact-hint = Write what touches what, for instance “feet on floor”, “working-hand on wall”, “elbows on wall sliding” or “other-hand on other-hip”. Parts: head, back, pelvis, shoulder, elbow, forearm, hand, hip, knee, heel, foot, toe.
protocol-figure-needs = { $where } touches something that is not described: “{ $key }” is missing.
protocol-figure-needs-hint = Add the distance of the wall (wall_m) or the height of the bench (bench_m), in metres.

## Why a limit is fixed

protocol-why-cap = Fixed: no set is longer than two minutes. Sets already lie outside what youth consensus papers describe, and nobody watches form longer than that.
protocol-why-scaption = Fixed: no hand weight above 2.2 kg (4.85 lb) in scaption, the value included. Practice of the trade, not trial evidence.
protocol-why-prone = Fixed: no more than 1 kg in prone lifts under 15.
protocol-why-water = Fixed: tired cuff and blade muscles do not go into the water. At least three hours, by practice; no trial has tested the order.
protocol-why-gap = Fixed at the top: the bands of absence may begin sooner, never later, since strength is lost in weeks.
protocol-why-beighton = Fixed at the top: the hypermobile track may begin at a lower score, never at a higher one than published.
protocol-why-growth = Fixed: the growth hold can be made more cautious, not less. Heights closer together than two months are mostly error of measurement.
protocol-why-pain = Fixed: this is a programme for uninjured swimmers, many of them children. What adult rehabilitation accepts does not carry over.
protocol-why-pain-window = Fixed: the days after a pain event can be more, not fewer than this range.
protocol-why-supervise = Fixed: beyond 20 swimmers to an adult nobody sees form being lost.
protocol-why-small-group = Fixed: in groups under five a report would point at a person.
protocol-why-teaching = Fixed: no exercise is timed to form loss in its first two sessions.

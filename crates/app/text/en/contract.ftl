# What is wrong with a history file, and what to write instead. Nothing is guessed: a near name is a hint, no more.
contract-not-json = This is not JSON: { $detail } (line { $line }, column { $column }).
contract-field-near = There is no field “{ $word }” here. Did you mean “{ $near }”?
contract-field-list = There is no field “{ $word }” here. The fields are { $known }.
contract-word-near = “{ $word }” is not one of the words used here. Did you mean “{ $near }”?
contract-word-list = “{ $word }” is not one of the words used here. They are { $known }.
contract-missing = The field “{ $word }” is missing. It has no default, because any value would be a guess.
contract-setting-near = The protocol has no parameter “{ $word }”. Did you mean “{ $near }”?
contract-one-rung = Name the rung in one way: “rung” by its name, “level” counted from one, “weight_kg” in each hand, or “band_n” in newtons at double length.
contract-over-limit = { $kg } kg ({ $lb } lb) is above the limit of { $limit } kg ({ $limit_lb } lb) in a hand. Nobody may raise it.
contract-no-sets = Write the sets that were done. An exercise that was not done is left out.
contract-line-twice = { $exercise } ({ $side }) stands twice in this session. Put its sets into one block, in the order they were done.
contract-born-later = Born on { $born }, which is after the day asked about, { $on }.

// The shapes that deck modules hand to one another. Types only: nothing here runs.

/** @typedef {"left"|"right"|"both"|"midline"} Side */
/** @typedef {"one"|"both"|"midline"} Arms */
/** @typedef {"together"|"stations"|"pairs"} Pattern */
/** @typedef {"cap"|"form"|"chose-to-stop"|"pain"|"kit"|"left"} Reason */
/** @typedef {{kind:"beat", out:number, hold:number, back:number}|{kind:"hold"}|{kind:"circles", every_s:number}} Tempo */

/**
 * One exercise as it is run today.
 * @typedef {object} Exercise
 * @property {string} id
 * @property {string} name
 * @property {Arms} arms
 * @property {boolean} loads_shoulder
 * @property {boolean} uses_band
 * @property {Tempo} tempo
 * @property {number} cap_s  longest work phase of this exercise today
 * @property {number} sets
 * @property {string} movement
 * @property {string} set_up
 * @property {string[]} cautions
 * @property {{code:string, name:string, cue:string}[]} faults
 * @property {string} figure  drawing of one moment, as SVG text; empty when there is none
 */

/**
 * What one swimmer does in one exercise on one side.
 * @typedef {object} Line
 * @property {string} exercise
 * @property {Side} side
 * @property {string} planned  rung
 * @property {string} rung_name
 * @property {number} sets
 * @property {number} cap_s
 * @property {boolean} timed  false while the exercise is being taught
 * @property {Tempo} tempo
 * @property {{mu:number, sigma:number}} prior  of the logarithm of seconds to form loss
 * @property {{rung:string, name:string}[]} easier  rungs below the planned one, nearest first
 */

/** @typedef {"clear"|"ache"|"left"|"right"|"both"|"out"|"stop"} Scenario */

/**
 * One swimmer in the bag.
 * @typedef {object} Swimmer
 * @property {string} id
 * @property {string} name
 * @property {string} full_name
 * @property {boolean} under_13
 * @property {boolean} teaching
 * @property {string} latex  "", "yes" or "unknown": an allergy on the emergency line
 * @property {string} emergency
 * @property {{name:string, relation:string, phone:string}[]} contacts
 * @property {boolean} asked_today
 * @property {Record<string, Line[]>} lines  by scenario; none where nothing may be done
 * @property {string} why_not  why nothing may be done even with no pain; empty otherwise
 * @property {Record<string, "left"|"right">} first  arm that works first, by exercise
 */

/**
 * Everything one device needs for one session without a network.
 * @typedef {object} Bag
 * @property {string} shape
 * @property {string} device  how this device is named in the record
 * @property {{id:string, date:string, number:number, context:string, title:string, pattern:Pattern, minutes:number, by:string}} session
 * @property {string} made_at
 * @property {boolean} may_decide  whoever holds this device may confirm the next doses
 * @property {string} club
 * @property {{name:string, phone:string}} practitioner
 * @property {{number:string, address:string, entrance:string, defibrillator:string}} place
 * @property {{rest_s:number, side_s:number, change_s:number, lead_s:number, cue_grace_s:number}} timing
 * @property {{out_from:number, stop_exercise_from:number, event_from:number, refer_from:number}} pain
 * @property {{under_13:number, from_13:number, two_adults:number}} ratio
 * @property {Exercise[]} exercises
 * @property {Swimmer[]} swimmers
 * @property {{mark:string, what:string, pieces:number, latex:string, inspected:string, due:boolean}[]} kit
 * @property {{sign:string, words:string}[]} signs  for which everything stops and somebody rings
 * @property {Record<string,string>} words
 */

/**
 * What is written down. `k` says what it is; the other fields depend on it.
 * @typedef {object} Entry
 * @property {string} id
 * @property {string} session
 * @property {string} device
 * @property {number} seq
 * @property {string} boot  one load of the page: durations within it come from one monotonic clock
 * @property {number} t  milliseconds on the session clock
 * @property {string} wall  the device's wall time
 * @property {string} k
 * @property {string} [who]
 * @property {string} [of]
 * @property {string} [run]
 * @property {number} [phase]
 * @property {number} [ms]
 * @property {Slot} [slot]
 * @property {Reason} [reason]
 * @property {string} [fault]
 * @property {boolean} [awake]
 * @property {boolean} [bridged]
 * @property {boolean} [present]
 * @property {boolean} [late]
 * @property {number} [left]
 * @property {number} [right]
 * @property {"ache"|"joint"|"unstated"} [kind]
 * @property {boolean} [fresh]
 * @property {number} [effort]
 * @property {"self"|"fingers"|"spoken"} [how]
 * @property {string} [when]
 * @property {string} [exercise]
 * @property {string} [rung]
 * @property {Side} [side]
 * @property {string} [what]
 * @property {string} [words]
 * @property {string} [mark]
 * @property {boolean} [sound]
 * @property {string[]} [signs]
 * @property {number} [adults]
 * @property {number} [waves]
 * @property {string} [by]
 * @property {number} [group]
 */

/**
 * Which set of whom: every touch carries it whole, so that no entry needs another one to be understood.
 * @typedef {object} Slot
 * @property {string} exercise
 * @property {Side} side
 * @property {number} set
 * @property {string} planned
 * @property {string} used
 * @property {number} sets
 * @property {number} cap_s
 * @property {number} [rest_s]
 */

/**
 * One stretch of the common clock.
 * @typedef {object} Phase
 * @property {number} index
 * @property {"work"|"rest"|"side"|"change"} kind
 * @property {number} seconds
 * @property {number} exercise  index; -1 in stations, where each group has its own
 * @property {number} set
 * @property {"both"|"first"|"second"} arm
 * @property {number} half  0 or 1 in pairs, else -1
 * @property {number} wave
 * @property {number} round
 */

export {};

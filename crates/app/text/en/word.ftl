# Words that stand in many sentences.
side-left = left
side-right = right
side-both = both arms
side-midline = trunk

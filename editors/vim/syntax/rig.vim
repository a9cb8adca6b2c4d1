" Vim syntax file for the rig language (*.rig).
" A keyword is one only where a statement expects it: a device may be called "drums", "in" or "must".
if exists("b:current_syntax")
  finish
endif

syn case match
syn iskeyword @,48-57,_,-,192-255

" Names. What comes later in this file wins where both could begin.
syn match   rigName        /\d\@!\k\+/
syn match   rigOwner       /\d\@!\k\+\ze\.\.\@!/
syn match   rigPort        /\.\@1<!\.\.\@!\k\+/
syn match   rigRange       /\.\./

syn match   rigNumber      /\(\k\|\d\.\)\@2<![+-]\?\d\+\(\.\d\+\)\?\(x\d\+\(\.\d\+\)\?\)\?\(\a\)\@!/ nextgroup=rigUnit skipwhite
syn match   rigNumber      /\(\k\|\d\.\)\@2<![+-]\?\d\+\(\.\d\+\)\?\ze\(x\d\)\@!\a/ nextgroup=rigUnit
syn match   rigUnit        contained /\(kohm\|kVA\|inch\|ppqn\|ohm\|kHz\|bpm\|dBu\|dBV\|mAh\|min\|bit\|awg\|mV\|kV\|mA\|mW\|kW\|VA\|cm\|mm\|ft\|ms\|Hz\|dB\|Wh\|Ah\|V\|A\|W\|m\|s\|h\)\>/

" Words between names.
syn match   rigWord        /\<\(on\|to\|at\|with\|from\|reach\|within\|receives\|sounds\|sends\|follows\|plays\|maps\|channel\|layered\|because\|like\)\>\.\@!/
syn match   rigWord        /\<\(in\)\>\ze\s\+\(stereo\|mono\|pairs\)\>/
syn match   rigWord        /\(\<in\s\+\)\@<=\(pairs\)\>/
syn match   rigWord        /\<\(coming\)\>\ze\s\+in\>/
syn match   rigWord        /\<\(going\)\>\ze\s\+out\>/
syn match   rigWord        /\<\(up\)\>\ze\s\+to\s\+\d/

" Words that open a line of a block.
syn match   rigLine        /^\s*\zs\(route\|switch\|join\|part\|track\|clock\|transport\|battery\|runs\|bus\|assign\|sound\|records\)\>[.]\@!/
syn match   rigLine        /\(^\s*runs\s\+on\s\+\)\@<=battery\>/

" Statements that give something a name.
syn match   rigStatement   /^\s*\zs\(rig\|import\|stock\|accept\)\>[.]\@!/
syn match   rigStatement   /^\s*\zs\(device\|gear\|lead\)\>/ nextgroup=rigDeclared skipwhite
syn match   rigDeclared    contained /"[^"]*"\|\d\@!\k\+/ nextgroup=rigOfKind skipwhite
syn match   rigOfKind      contained /:/ nextgroup=rigKind skipwhite
syn match   rigKind        contained /\d\@!\k\+\|"[^"]*"/

" The signal after the colon of a port, and the plugs of a lead.
syn region  rigPortLine    matchgroup=rigLine start=/^\s*\(in\|out\)\>\ze[^:]*:/ end=/,\@1<!$/ keepend transparent contains=rigSignals,rigString,rigName,rigRange,rigComment
syn region  rigLeadLine    matchgroup=rigStatement start=/^\s*lead\>/ end=/,\@1<!$/ keepend transparent contains=rigLeadName,rigSignals,rigString,rigName,rigComment
syn match   rigLeadName    contained /\(^\s*lead\s\+\)\@<=\("[^"]*"\|\d\@!\k\+\)/
syn region  rigSignals     contained start=/:/ end=/,\@1<!$/ transparent contains=rigSignal,rigDetail,rigPlug,rigNumber,rigWord,rigString,rigRange,rigComment
syn keyword rigSignal      contained midi pulse din-sync audio insert control dc ac mains usb
syn keyword rigDetail      contained mono stereo mic instrument line headphone speaker balanced unbalanced impedance-balanced transformer-balanced
syn keyword rigDetail      contained phantom normalled isolated centre-positive centre-negative any-polarity positive-ground earthed double-insulated device host charger
syn keyword rigDetail      contained pitch gate trigger expression volt-per-octave hertz-per-volt wiper tip ring normally open closed inverted switch
syn keyword rigPlug        contained ts trs trrs xlr-3 combo rca din-5 barrel usb-a usb-b usb-c mini micro iec-c13 iec-c14 iec-c5 iec-c6 iec-c7 iec-c8
syn keyword rigPlug        contained type-a type-b captive socket left right

" What must arrive, must never, or is dropped on the way.
syn region  rigExpect      matchgroup=rigStatement start=/^\s*\(must\|never\)\>[.]\@!/ end=/,\@1<!$/ keepend transparent contains=rigKinds,rigName,rigOwner,rigPort,rigWord,rigChannel,rigNumber,rigString,rigComment
syn match   rigKinds       contained transparent /\(^\s*\(must\|never\)\s\+\)\@<=.\{-}\ze\<from\>/ contains=rigMessage
syn region  rigFilter      matchgroup=rigWord start=/\<\(drops\)\>[.]\@!/ start=/\<\(passes\)\s\+\(only\)\>/ start=/^\s*\(filters\)\>/ end=/$/ keepend transparent contains=rigMessage,rigWord,rigComment
syn match   rigMessage     contained /\<\(notes\|velocity\|aftertouch\|controllers\|program\s\+change\|pitch\s\+bend\|system\s\+exclusive\|song\s\+position\|active\s\+sensing\|clock\|start\|stop\|continue\|transport\|audio\|power\|any\)\>/
syn match   rigChannel     /\(\<channel\s\+\)\@<=\(any\|auto\|off\)\>/
syn match   rigChannel     /\(\<\(thru\|local\|phantom\)\s\+\)\@<=\(on\|off\)\>/

" Cables, with the colour words of IEC 60757.
syn region  rigCable       matchgroup=rigStatement start=/^\s*connect\>[.]\@!/ end=/,\@1<!$/ keepend transparent contains=rigName,rigColour,rigOwner,rigPort,rigWord,rigNumber,rigString,rigComment
syn region  rigStock       start=/\(^\s*stock\s*\)\@<={/ end=/}/ transparent contains=rigName,rigColour,rigNumber,rigString,rigComment
syn match   rigColour      contained /\<\(black\|brown\|red\|orange\|yellow\|green\|blue\|violet\|grey\|white\|pink\|gold\|turquoise\|silver\)\>[.]\@!/

syn match   rigString      /"[^"]*"/
syn match   rigUnclosed    /"[^"]*$/
syn match   rigComment     /\/\/.*$/ contains=@Spell
syn match   rigDoc         /\/\/\/.*$/ contains=@Spell

hi def link rigStatement   Statement
hi def link rigLine        Statement
hi def link rigWord        Keyword
hi def link rigDeclared    Identifier
hi def link rigLeadName   Identifier
hi def link rigKind        Type
hi def link rigPort        Identifier
hi def link rigSignal      Type
hi def link rigDetail      StorageClass
hi def link rigPlug        Constant
hi def link rigMessage     Constant
hi def link rigChannel     Constant
hi def link rigColour      Constant
hi def link rigNumber      Number
hi def link rigUnit        Type
hi def link rigRange       Operator
hi def link rigString      String
hi def link rigUnclosed    Error
hi def link rigComment     Comment
hi def link rigDoc         SpecialComment

let b:current_syntax = "rig"

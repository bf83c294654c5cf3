// How a rule or a piece of work says where it comes from:
//
//   * documentation[+] insert Seen(EPIC3 2014, [[...]])          of a rule
//   * relatedArtifact[+] insert FromMemory(INS, [[...]])         of an ActivityDefinition

// A published source whose text was read.
RuleSet: Seen(label, citation)
* extension[+].url = $source-certainty
* extension[=].valueCode = #seen
* type = #citation
* label = "{label}"
* citation = "{citation}"

// A published source that is known from memory. Check it before use.
RuleSet: FromMemory(label, citation)
* extension[+].url = $source-certainty
* extension[=].valueCode = #from-memory
* type = #citation
* label = "{label}"
* citation = "{citation}"

// No source was published.
RuleSet: CommonPractice(text)
* insert WithoutSource(Common practice, [[Common practice, no source: {text}]])

// What is partly or wholly common practice; the text says so.
RuleSet: WithoutSource(label, text)
* extension[+].url = $source-certainty
* extension[=].valueCode = #common-practice
* type = #documentation
* label = "{label}"
* display = "{text}"

// What people should know of it: other values, bounds, readings.
RuleSet: Note(text)
* type = #documentation
* display = "{text}"

// Why it loosens a published maximum, or does not take the protective reading.
RuleSet: Reason(text)
* type = #justification
* display = "{text}"

// A starting plan of your own: it has no rule yet and changes nothing. Beside this file, in input/fsh/, belongs a
// sushi-config.yaml with
//   canonical: https://your-hospital.example/fhir
//   fhirVersion: 4.0.1
//   FSHOnly: true
// A rule is an action, written like this one (`dwellward policy new --examples` prints one of each kind):
//   * action[+]
//     * insert Ask(our-site-assessment, site-assessment, site-assessment)
//     * title = "Look at the exit site every eight hours"
//     * insert On(exit-site)
//     * insert Every(8, h)
//     * documentation[+] insert CommonPractice([[decided by our unit, on which day and by whom]])
// It is a draft: the sidecar refuses it until status is #active and experimental is false.

Instance: OurUnit
InstanceOf: PlanDefinition
Usage: #definition
* id = "our-unit"
* url = "https://your-hospital.example/fhir/PlanDefinition/our-unit"
* version = "0.1.0"
* name = "OurUnit"
* title = "Line care of our unit"
* type = $plan-type#clinical-protocol "Clinical Protocol"
* status = #draft
* experimental = true
* description = "A starting point, laid over the bundled base. It has no rule yet and changes nothing."
* usage = "Add the rules that your unit decides. Give url, version and title of your own, and a new version with every change. effectivePeriod, with start and end as dates, says from which day to which the version is in force. An action’s id is the rule’s name: keep it from version to version."

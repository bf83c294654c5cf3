// What may be forbidden: one ActivityDefinition an activity. A rule says when.

Instance: no-infusion-start
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(infusion-start, No infusion)

Instance: no-flush
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(flush, No flush)

Instance: no-lock
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(lock, No lock)

Instance: no-blood-sampling
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(blood-sampling, No blood draw through the line)

Instance: no-patency-assessment
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(patency-assessment, No test of a lumen)

Instance: no-occlusion-treatment
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(occlusion-treatment, No drug for a blockage)

Instance: no-dressing-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(dressing-change, No dressing change)

Instance: no-securement-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(securement-change, No change of the securement device)

Instance: no-suture-removal
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(suture-removal, No removal of stitches)

Instance: no-needleless-connector-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(needleless-connector-change, No connector change)

Instance: no-administration-set-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(administration-set-change, No change of the administration set)

Instance: no-access-needle-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(access-needle-change, No change of the port needle)

Instance: no-external-length-measurement
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(external-length-measurement, No measurement of the external length)

Instance: no-clamp-position-change
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(clamp-position-change, No move of the clamp)

Instance: no-bath
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(bath, No antiseptic bath)

Instance: no-insertion
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(insertion, No insertion)

Instance: no-repair
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(repair, No repair)

Instance: no-splint-removal
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(splint-removal, No removal of the splint)

Instance: no-removal
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(removal, No removal of the line)

Instance: no-getting-up
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(getting-up, No getting up)

Instance: no-blockage-response
InstanceOf: ActivityDefinition
Usage: #definition
* insert Forbidden(blockage-response, No attempt to open a lumen)

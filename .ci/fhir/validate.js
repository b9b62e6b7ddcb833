// validate.js FILE: checks a FHIR R4 resource in JSON against HL7's own structure definitions, as
// carried by the npm package "fhir". Exit: 0 valid, 1 not, with the findings on standard error.
'use strict';
const fs = require('fs');
const {Fhir} = require('fhir');

const resource = JSON.parse(fs.readFileSync(process.argv[2], 'utf8'));
const result = new Fhir().validate(resource, {errorOnUnexpected: true});
const errors = result.messages.filter((message) => message.severity === 'error');
for (const error of errors) console.error(`${error.location}: ${error.message}`);
process.exit(result.valid && errors.length === 0 ? 0 : 1);

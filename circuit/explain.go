package circuit
